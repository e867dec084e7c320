/** Hear what changes on the server: by this window or by another. One connection for the whole page. */
import { signal } from "@preact/signals";

/** A case or a kit was changed; its revision is 0 when it was taken out. */
export interface News {
  kind: "case" | "kit";
  id: string;
  revision: number;
}

/** null: the connection was lost and is back; nobody knows what changed meanwhile. */
type Hearing = (news: News | null) => void;

/** Whether the server can be heard. */
export const heard = signal<"yes" | "no" | "unknown">("unknown");

const hearing = new Set<Hearing>();
let source: EventSource | null = null;

/** Be told of every change; gives what ends it. */
export function onNews(tell: Hearing): () => void {
  hearing.add(tell);
  if (!source && typeof EventSource !== "undefined") open();
  return () => hearing.delete(tell);
}

/** Tell everybody. */
export function tellNews(news: News | null): void {
  for (const tell of [...hearing]) tell(news);
}

/** Read one line of the stream. */
export function read(line: string): News | null {
  const told = JSON.parse(line) as { case?: string; kit?: string; revision?: number };
  const id = told.case ?? told.kit;
  return id ? { kind: told.case ? "case" : "kit", id, revision: told.revision ?? 0 } : null;
}

function open(): void {
  source = new EventSource("/api/events");
  source.onmessage = (event: MessageEvent<string>) => {
    const news = read(event.data);
    if (news) tellNews(news);
  };
  source.onopen = () => {
    const lost = heard.value === "no";
    heard.value = "yes";
    if (lost) tellNews(null);
  };
  source.onerror = () => {
    heard.value = "no";
    if (source?.readyState !== EventSource.CLOSED) return;
    source = null; // refused for good: the browser gives up, we do not
    setTimeout(() => source ?? open(), 3000);
  };
}
