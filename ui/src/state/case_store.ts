/** A case that is open, and the answer to exactly what is on the screen. */
import { computed, effect, signal, type ReadonlySignal } from "@preact/signals";

import { api, Refusal } from "./api";
import { frame as t } from "../texts/frame";
import { onNews } from "./news";
import { writer } from "./person";
import type { CaseSaid, Change, Fault, KitSaid, PlanSaid, Told } from "./types";
import { WrittenStore } from "./written_store";

/** The case, and its answer; an answer to anything else than what stands on the screen is not shown as one. */
export class CaseStore extends WrittenStore<CaseSaid> {
  /** The last answer that came, whatever it belongs to. */
  readonly answer = signal<PlanSaid | null>(null);
  /** Why there is no answer. */
  readonly trouble = signal<Told | null>(null);
  /** The newest revision of the kit that was heard of. */
  readonly newestKit = signal(0);
  /** The answer that belongs to exactly what stands on the screen; else null. */
  readonly current: ReadonlySignal<PlanSaid | null> = computed(() => (this.belongs ? this.answer.value : null));
  /** Whether an answer is on its way. */
  readonly working: ReadonlySignal<boolean> = computed(
    () => this.current.value === null && this.trouble.value === null,
  );
  private asking: AbortController | null = null;
  private asked = "";
  private retry: ReturnType<typeof setTimeout> | undefined;

  constructor(
    id: string,
    private readonly kitOf: (id: string) => WrittenStore<KitSaid>,
  ) {
    super("case", id);
  }

  override begin(): void {
    super.begin();
    onNews((news) => {
      if (news?.kind === "kit" && news.id === this.said.value?.kit_id) this.hearKit(news.revision);
    });
    effect(() => {
      const key = this.wanted;
      if (key !== null && key !== this.asked) void this.ask(key);
    });
    effect(() => {
      if (this.current.value) this.touched.value = [];
    });
  }

  /** Try changes; nothing of them is kept. */
  tryOut(changes: Change[], signal?: AbortSignal): Promise<PlanSaid> {
    return api.post<PlanSaid>(`/cases/${this.id}/what-if`, { changes }, signal);
  }

  /** Choose the kit of the case, or none. */
  async chooseKit(kit: string | null): Promise<void> {
    await this.whenSettled();
    const base = this.said.value?.revision;
    if (base === undefined) return;
    try {
      this.newestKit.value = 0;
      this.take(await api.post<CaseSaid>(`/cases/${this.id}/kit`, { who: writer(), base, kit }));
    } catch (error) {
      if (error instanceof Refusal)
        this.refused.value = { told: error.told, edit: { base, changes: [], what: t.kit_choice, gesture: null } };
      void this.again();
    }
  }

  /** Ask for the answer again. */
  askAgain(): void {
    this.asked = "";
    if (this.wanted !== null) void this.ask(this.wanted);
  }

  /** The kit of the case as it is open in this window; null where it has none. */
  get kit(): WrittenStore<KitSaid> | null {
    const id = this.said.value?.kit_id;
    return id ? this.kitOf(id) : null;
  }

  protected override faultsSaid(): readonly Fault[] {
    return (this.answer.value?.faults ?? []).filter((fault) => fault.of === "case");
  }

  private get kitSettled(): boolean {
    const kit = this.kit;
    const known = Math.max(this.newestKit.value, kit?.newest.value ?? 0);
    return !kit || (kit.waiting.value.length === 0 && (this.said.value?.kit_revision ?? 0) >= known);
  }

  private get belongs(): boolean {
    const [answer, said] = [this.answer.value, this.said.value];
    if (!answer || !said || !this.settled || !this.kitSettled) return false;
    return answer.revision === said.revision && answer.kit_revision === said.kit_revision;
  }

  /** What to ask for, named by the revisions; null while that is not settled. */
  private get wanted(): string | null {
    const said = this.said.value;
    return said && this.settled ? `${said.revision} ${said.kit_revision}` : null;
  }

  private hearKit(revision: number): void {
    this.newestKit.value = Math.max(this.newestKit.value, revision);
    if (revision > (this.said.value?.kit_revision ?? 0)) void this.again();
  }

  private async ask(key: string): Promise<void> {
    this.asked = key;
    this.trouble.value = null;
    clearTimeout(this.retry);
    this.asking?.abort();
    const mine = (this.asking = new AbortController());
    try {
      const answer = await api.get<PlanSaid>(`/cases/${this.id}/plan`, mine.signal);
      if (this.asking !== mine) return;
      this.trouble.value = null;
      this.answer.value = answer;
      const said = this.said.value;
      if (said && (answer.revision > said.revision || (answer.kit_revision ?? 0) > (said.kit_revision ?? 0)))
        void this.again();
      else if (!this.belongs && key === this.wanted) this.askLater(key);
    } catch (error) {
      if (this.asking !== mine) return;
      if (error instanceof Refusal) this.trouble.value = error.told;
      else this.askLater(key);
    }
  }

  private askLater(key: string): void {
    this.retry = setTimeout(() => key === this.wanted && void this.ask(key), 1500);
  }
}
