/** Talk with the server: answers, refusals in its words, and the case that it cannot be reached. */
import { frame as t } from "../texts/frame";
import type { Told } from "./types";

/** The server refuses, and says why. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly told: Told,
  ) {
    super([told.what, told.allowed, told.do].filter(Boolean).join(" "));
  }
}

/** Nobody answers; nothing is known of what happened to what was sent. */
export class Away extends Error {
  constructor() {
    super(t.away.short);
  }
}

async function ask<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const sent =
    body === undefined ? {} : { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } };
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, { method, ...sent, ...(signal ? { signal } : {}) });
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Away();
  }
  if (answer.status >= 500) throw new Away();
  const said: unknown = answer.status === 204 ? null : await answer.json().catch(() => null);
  if (answer.ok) return said as T;
  throw new Refusal(answer.status, (said as { error?: Told } | null)?.error ?? { what: t.away.refused(answer.status) });
}

/** The three ways to ask. Paths begin after `/api`. */
export const api = {
  get: <T>(path: string, signal?: AbortSignal) => ask<T>("GET", path, undefined, signal),
  post: <T>(path: string, body: unknown, signal?: AbortSignal) => ask<T>("POST", path, body, signal),
  remove: (path: string) => ask<null>("DELETE", path),
};
