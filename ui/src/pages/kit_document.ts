/** The document of a first kit: what was typed, and no row of which nothing was told. */

export type FirstRow = Record<string, string>;

/** Make the document; a row counts when it has a name, and a text stays as it was typed. */
export function kitDocument(team: string, rows: Record<string, readonly FirstRow[]>): Record<string, unknown> {
  const document: Record<string, unknown> = { schema: 1 };
  if (team.trim()) document["team"] = { name: team.trim() };
  for (const [part, told] of Object.entries(rows)) {
    const full = told.map(filled).filter((row) => "id" in row || "name" in row);
    if (full.length) document[part] = full.map((row) => ("may" in row ? { ...row, may: [row["may"]] } : row));
  }
  return document;
}

function filled(row: FirstRow): FirstRow {
  return Object.fromEntries(Object.entries(row).flatMap(([key, text]) => (text.trim() ? [[key, text.trim()]] : [])));
}
