/** What can be written, asked for once. */
import { signal } from "@preact/signals";

import { api } from "./api";
import type { AppSaid, Form } from "./types";

export const form = signal<Form | null>(null);
export const app = signal<AppSaid | null>(null);

/** Ask until it is known. */
export async function learn(): Promise<void> {
  try {
    [form.value, app.value] = await Promise.all([api.get<Form>("/form"), api.get<AppSaid>("/app")]);
  } catch {
    setTimeout(() => void learn(), 2000);
  }
}
