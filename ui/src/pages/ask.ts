/** Ask the server from a page, and put every failure into words. */
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { api, Away, Refusal } from "../state/api";
import { onNews } from "../state/news";
import type { Told } from "../state/types";
import { pages as t } from "../texts/pages";

/** What went wrong, for a person. */
export function troubleWords(error: unknown): string {
  if (error instanceof Refusal) return refusalWords(error.status, error.told);
  return error instanceof Away ? t.trouble.away : t.trouble.unknown;
}

/** Put a refusal of the server into words: what, by whom, and what to do. */
export function refusalWords(status: number, told: Told): string {
  const [given, allowed] = [inWords(told.given), inWords(told.allowed)];
  const parts = [told.what, given && t.trouble.given(given), allowed && t.trouble.allowed(allowed), inWords(told.do)];
  const said = parts.map(sentence).filter(Boolean).join(" ");
  if (status === 404) return said || t.trouble.gone;
  if (status !== 409) return said || t.trouble.refused(status);
  return told.by ? `${t.trouble.clash(told.by, told.at ? clock(told.at) : null)} ${said}` : said || t.trouble.stale;
}

function inWords(raw: unknown): string {
  return raw === null || raw === undefined ? "" : String(raw);
}

function sentence(words: string): string {
  const text = words.trim();
  return text && !/[.!?]$/.test(text) ? `${text}.` : text;
}

/** Say when something happened, in this machine's own time. */
export function clock(at: string): string {
  const when = new Date(at);
  if (Number.isNaN(when.getTime())) return at;
  return when.toLocaleString("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
}

export interface Asked<T> {
  /** The last answer, whether or not it still holds. */
  data: T | null;
  /** Whether the answer belongs to what was asked last; only then may a number of it be shown. */
  holds: boolean;
  trouble: string | null;
  again: () => void;
}

interface State<T> {
  path: string | null;
  version: string | null;
  data: T | null;
  trouble: string | null;
}

/**
 * Ask for an answer, and again when `version` changes: from that moment on the old one does not hold, and an answer to an
 * earlier asking is dropped. Nothing is asked while `path` or `version` is null.
 */
export function useAsked<T>(path: string | null, version: string | null = ""): Asked<T> {
  const [state, setState] = useState<State<T>>({ path: null, version: null, data: null, trouble: null });
  const turn = useRef(0);
  const again = useCallback(() => {
    const mine = ++turn.current;
    if (path === null || version === null) return;
    setState((old) => ({ ...old, trouble: null, version: null }));
    api.get<T>(path).then(
      (data) => mine === turn.current && setState({ path, version, data, trouble: null }),
      (error: unknown) => mine === turn.current && setState((old) => ({ ...old, version: null, trouble: troubleWords(error) })),
    );
  }, [path, version]);
  useEffect(() => {
    again();
    return () => {
      turn.current += 1;
    };
  }, [again]);
  const failed = state.trouble !== null;
  useEffect(() => (failed ? onNews((news) => news === null && again()) : undefined), [failed, again]); // back again
  const data = state.path === path ? state.data : null;
  return { data, holds: data !== null && version !== null && state.version === version, trouble: state.trouble, again };
}

/** A count that grows with every change that is heard of, for lists of all cases or kits. */
export function useNews(): string {
  const [count, setCount] = useState(0);
  useEffect(() => onNews(() => setCount((old) => old + 1)), []);
  return String(count);
}
