import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

import { CaseStore, KitStore } from "./store";
import type { CaseSaid, PlanSaid } from "./types";

/** A server of which every answer comes when the test says so, in any order. */
class Server {
  revision = 1;
  kit = 1;
  document: Record<string, unknown> = { site: { depth: "16 m" } };
  readonly open: { path: string; body: string; give: (status: number, said: unknown) => void; cut: () => void }[] = [];

  fetch = (path: string, how: RequestInit = {}): Promise<Response> =>
    new Promise((done, fail) => {
      const give = (status: number, said: unknown) => done(new Response(JSON.stringify(said), { status }));
      const one = {
        path: path.replace("/api", ""),
        body: String(how.body ?? ""),
        give,
        cut: () => fail(new TypeError("network")),
      };
      how.signal?.addEventListener("abort", () => fail(new DOMException("", "AbortError")));
      this.open.push(one);
    });

  take(path: string) {
    const index = this.open.findIndex((one) => one.path === path);
    const [found] = this.open.splice(index, 1);
    if (index < 0 || !found)
      throw new Error(`nobody asks for ${path}; asked: ${this.open.map((one) => one.path).join(", ")}`);
    return found;
  }

  said(): CaseSaid {
    return {
      id: "c",
      revision: this.revision,
      title: "",
      changed_at: "",
      document: this.document,
      undo_what: null,
      redo_what: null,
      shown: {},
      kit_id: "k",
      kit_revision: this.kit,
      parent: null,
      variant: null,
    };
  }

  plan(revision = this.revision, kit = this.kit): PlanSaid {
    return {
      case_id: "c",
      revision,
      kit_revision: kit,
      digest: "",
      plan: { verdict: { line: "none", stops: 0, unanswered: 0, cautions: 0, lifted: 0 } },
      faults: [],
      stages: {},
      findings: [],
      missing: [],
      numbers: [],
    };
  }
}

const soon = () => new Promise((done) => setTimeout(done, 0));

describe("an answer is shown only for exactly what stands on the screen", () => {
  let server: Server;
  let store: CaseStore;
  let kit: KitStore;

  beforeEach(async () => {
    localStorage.clear();
    server = new Server();
    vi.stubGlobal("fetch", server.fetch);
    kit = new KitStore("k");
    store = new CaseStore("c", () => kit);
    store.begin();
    server.take("/cases/c").give(200, server.said());
    await soon();
    server.take("/cases/c/plan").give(200, server.plan());
    await soon();
  });
  afterEach(() => vi.unstubAllGlobals());

  const type = (value: string, gesture = "g") =>
    store.edit([{ op: "set", path: ["site", "depth"], value }], "", gesture);
  const accept = async () => {
    const sent = server.take("/cases/c/edits");
    const { changes } = JSON.parse(sent.body) as { changes: { value: string }[] };
    server.revision += 1;
    server.document = { site: { depth: changes[0]?.value } };
    sent.give(200, server.said());
    await soon();
  };

  it("is taken away by the first letter, before anything is sent back", () => {
    expect(store.current.value).not.toBeNull();
    type("1");
    expect(store.current.value).toBeNull();
    expect(store.working.value).toBe(true);
    expect(store.document.value).toEqual({ site: { depth: "1" } });
  });

  it("comes back with the answer to the new revision alone", async () => {
    type("18 m");
    await accept();
    expect(store.current.value).toBeNull();
    server.take("/cases/c/plan").give(200, server.plan());
    await soon();
    expect(store.current.value?.revision).toBe(2);
  });

  it("is not given by an answer that was overtaken", async () => {
    type("1");
    await accept();
    const late = server.take("/cases/c/plan");
    type("18 m", "h");
    late.give(200, server.plan(2));
    await soon();
    expect(store.current.value).toBeNull();
    await accept();
    server.take("/cases/c/plan").give(200, server.plan(2)); // the server answers of before once more
    await soon();
    expect(store.current.value).toBeNull();
  });

  it("sends the letters of one field one after another, the last wins", async () => {
    for (const text of ["1", "18", "18 ", "18 m"]) type(text);
    await accept();
    expect(store.document.value).toEqual({ site: { depth: "18 m" } });
    expect(server.open.filter((one) => one.path === "/cases/c/edits")).toHaveLength(1);
    await accept();
    expect(store.waiting.value).toEqual([]);
    expect(server.document).toEqual({ site: { depth: "18 m" } });
  });

  it("is gone while another window is ahead, in the case or in the kit", async () => {
    store.newest.value = 5;
    expect(store.current.value).toBeNull();
    store.newest.value = 1;
    expect(store.current.value).not.toBeNull();
    store.newestKit.value = 2;
    expect(store.current.value).toBeNull();
  });

  it("is gone while the kit is being written in this window", () => {
    kit.said.value = { ...server.said(), id: "k", faults: [] };
    kit.edit([{ op: "set", path: ["team", "name"], value: "x" }]);
    expect(store.current.value).toBeNull();
  });

  it("keeps what is typed when nobody answers, on this device too", async () => {
    type("18 m");
    server.take("/cases/c/edits").cut();
    await soon();
    expect(store.saving.value).toBe("away");
    expect(store.document.value).toEqual({ site: { depth: "18 m" } });
    const opened = new CaseStore("c", () => kit);
    opened.begin();
    server.take("/cases/c").give(200, server.said());
    await soon();
    expect(opened.document.value).toEqual({ site: { depth: "18 m" } });
    expect(opened.current.value).toBeNull();
  });

  it("leaves a clash to a person", async () => {
    type("18 m");
    server
      .take("/cases/c/edits")
      .give(409, { error: { what: "changed", by: "Bo", at: "", theirs: "20 m", revision: 3 } });
    await soon();
    expect(store.saving.value).toBe("clash");
    expect(store.current.value).toBeNull();
    server.revision = 3;
    server.document = { site: { depth: "20 m" } };
    store.settle("theirs");
    server.take("/cases/c").give(200, server.said());
    await soon();
    expect(store.document.value).toEqual({ site: { depth: "20 m" } });
  });

  it("sends mine again on top of theirs", async () => {
    type("18 m");
    server
      .take("/cases/c/edits")
      .give(409, { error: { what: "changed", by: "Bo", at: "", theirs: "20 m", revision: 3 } });
    await soon();
    server.revision = 3;
    store.settle("mine");
    server.take("/cases/c").give(200, server.said());
    await soon();
    expect(JSON.parse(server.take("/cases/c/edits").body)).toMatchObject({ base: 3, changes: [{ value: "18 m" }] });
  });

  it("tells what was refused, with its words", async () => {
    type("18 m");
    server.take("/cases/c/edits").give(422, { error: { what: "too deep" } });
    await soon();
    expect(store.refused.value?.told.what).toBe("too deep");
    expect(store.refused.value?.edit.changes[0]?.value).toBe("18 m");
  });
});
