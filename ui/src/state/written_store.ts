/** One document that is open to write in: a case or a kit. */
import { batch, computed, signal, type ReadonlySignal } from "@preact/signals";

import { api, Away, Refusal } from "./api";
import { onNews } from "./news";
import { keepWaiting, keptWaiting, queued, taken, touches, type Waiting } from "./outbox";
import { applied, overlaps } from "./paths";
import { writer } from "./person";
import type { Change, Document, Fault, Path, Told, Written } from "./types";

/** How it stands with what was written here. */
export type Saving = "opening" | "saved" | "saving" | "away" | "clash";

/** Somebody else changed the same place first. */
export interface Clash {
  told: Told;
  mine: Waiting;
}

const PAUSES = [1000, 2000, 4000, 8000, 15000];

/** Base of both stores. Nothing typed is dropped: it waits until it is taken, refused in words, or given up by a person. */
export abstract class WrittenStore<S extends Written> {
  /** The last word of the server. */
  readonly said = signal<S | null>(null);
  readonly waiting = signal<Waiting[]>([]);
  readonly clash = signal<Clash | null>(null);
  /** Edits that the server did not take, with its words. */
  readonly refused = signal<{ told: Told; edit: Waiting } | null>(null);
  /** Why it cannot be opened at all. */
  readonly gone = signal<Told | null>(null);
  readonly away = signal(false);
  /** The newest revision that was heard of. */
  readonly newest = signal(0);
  /** The document as it stands on the screen. */
  readonly document: ReadonlySignal<Document> = computed(() => this.onScreen());
  readonly saving: ReadonlySignal<Saving> = computed(() => this.howSaved());
  /** What is written wrongly, as far as it was told and not changed since. */
  readonly faults: ReadonlySignal<readonly Fault[]> = computed(() =>
    this.faultsSaid().filter((fault) => !this.touched.value.some((path) => overlaps(path, fault.path))),
  );
  protected readonly touched = signal<Path[]>([]);
  private sending = false;
  private failures = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private settling: (() => void)[] = [];

  constructor(
    readonly kind: "case" | "kit",
    readonly id: string,
  ) {}

  /** Whether nothing waits and nothing newer was heard of. */
  get settled(): boolean {
    return (
      this.waiting.value.length === 0 &&
      this.clash.value === null &&
      (this.said.value?.revision ?? -1) >= this.newest.value
    );
  }

  /** Open it: what still waits from the last time is sent first. */
  begin(): void {
    this.waiting.value = keptWaiting(this.name);
    onNews((news) => {
      if (news === null) void this.again();
      else if (news.kind === this.kind && news.id === this.id) this.hear(news.revision);
    });
    if (typeof addEventListener === "function") addEventListener("online", () => void this.again());
    void this.again();
  }

  /** Write: shown at once, sent as soon as may be. */
  edit(changes: Change[], what = "", gesture: string | null = null): void {
    const base = this.said.value?.revision;
    if (base === undefined) return;
    const next = { base, changes, what, gesture };
    this.touched.value = [...this.touched.value, ...changes.map((change) => change.path)];
    this.put(queued(this.waiting.value, next, this.sending));
    void this.pump();
  }

  /** Read it again, then send what waits. */
  async again(): Promise<void> {
    clearTimeout(this.timer);
    if (this.sending) return;
    try {
      this.take(await api.get<S>(`/${this.kind}s/${this.id}`));
      void this.pump();
    } catch (error) {
      this.fail(error);
    }
  }

  undo(): Promise<void> {
    return this.step("undo");
  }

  redo(): Promise<void> {
    return this.step("redo");
  }

  /** Go on after a clash: with what was written here, or with what stands there. */
  settle(keep: "mine" | "theirs"): void {
    const clash = this.clash.value;
    if (!clash) return;
    const revision = Math.max(clash.told.revision ?? 0, this.newest.value);
    const rest = this.waiting.value;
    this.put(
      keep === "mine"
        ? rest.map((one) => ({ ...one, base: touches(one, clash.mine) ? revision : one.base }))
        : rest.filter((one) => !touches(one, clash.mine)),
    );
    this.clash.value = null;
    void this.again();
  }

  /** Wait until nothing waits any more. */
  whenSettled(): Promise<void> {
    return this.waiting.value.length === 0 ? Promise.resolve() : new Promise((done) => this.settling.push(done));
  }

  protected abstract faultsSaid(): readonly Fault[];

  /** A newer word of the server. */
  protected take(said: S): void {
    batch(() => {
      this.failures = 0;
      this.away.value = false;
      this.gone.value = null;
      if (said.revision < (this.said.value?.revision ?? 0)) return; // an answer that was overtaken
      this.said.value = said;
      this.newest.value = Math.max(this.newest.value, said.revision);
      if (this.waiting.value.length === 0) this.touched.value = this.kind === "kit" ? [] : this.touched.value;
    });
  }

  private get name(): string {
    return `${this.kind}.${this.id}`;
  }

  private onScreen(): Document {
    const changes = this.waiting.value.flatMap((one) => one.changes);
    return applied(this.said.value?.document ?? {}, changes);
  }

  private howSaved(): Saving {
    if (this.clash.value) return "clash";
    if (this.away.value) return "away";
    if (!this.said.value) return "opening";
    return this.waiting.value.length ? "saving" : "saved";
  }

  private hear(revision: number): void {
    this.newest.value = Math.max(this.newest.value, revision);
    if (!this.sending && revision !== (this.said.value?.revision ?? 0)) void this.again();
  }

  private put(waiting: Waiting[]): void {
    this.waiting.value = waiting;
    keepWaiting(this.name, waiting);
    if (waiting.length === 0) for (const done of this.settling.splice(0)) done();
  }

  private async pump(): Promise<void> {
    const first = this.waiting.value[0];
    if (this.sending || !first || this.clash.value || !this.said.value) return;
    this.sending = true;
    try {
      const said = await api.post<S>(`/${this.kind}s/${this.id}/edits`, {
        ...first,
        what: first.what.slice(0, 200),
        who: writer(),
      });
      batch(() => {
        this.put(taken(this.waiting.value, said.revision));
        this.take(said);
      });
      this.sending = false;
      if (this.newest.value > said.revision) void this.again();
      else void this.pump();
    } catch (error) {
      this.sending = false;
      this.refuse(error, first);
    }
  }

  private refuse(error: unknown, edit: Waiting): void {
    if (!(error instanceof Refusal)) this.fail(error);
    else if (error.status === 409 && error.told.by) this.clash.value = { told: error.told, mine: edit };
    else if (error.status === 409) this.later();
    else {
      this.refused.value = { told: error.told, edit };
      this.put(this.waiting.value.slice(1));
      void this.again();
    }
  }

  private fail(error: unknown): void {
    if (error instanceof Refusal) {
      if (error.status === 404) this.gone.value = error.told;
      else this.later();
      return;
    }
    if (error instanceof Away) this.away.value = true;
    this.later();
  }

  private later(): void {
    clearTimeout(this.timer);
    const pause = PAUSES[Math.min(this.failures, PAUSES.length - 1)];
    this.failures += 1;
    this.timer = setTimeout(() => void this.again(), pause);
  }

  private async step(way: "undo" | "redo"): Promise<void> {
    if (this.away.value) return; // nobody wants an old undo to happen minutes later
    await this.whenSettled();
    const base = this.said.value?.revision;
    if (base === undefined) return;
    try {
      this.touched.value = [];
      this.take(await api.post<S>(`/${this.kind}s/${this.id}/${way}`, { base, who: writer() }));
    } catch (error) {
      if (error instanceof Refusal)
        this.refused.value = { told: error.told, edit: { base, changes: [], what: way, gesture: null } };
      void this.again();
    }
  }
}
