/** A table: caption, head, rows; wide ones scroll inside themselves. */
import type { ComponentChildren } from "preact";

interface Props {
  caption: string;
  head: readonly string[];
  rows: readonly (readonly ComponentChildren[])[];
  /** Only for screen readers. */
  hidden?: boolean;
  /** Columns that hold numbers. */
  numbers?: readonly number[];
}

/** The first column names the row. */
export function Table({ caption, head, rows, hidden = false, numbers = [] }: Props) {
  const side = (index: number) => (numbers.includes(index) ? "is-number" : undefined);
  return (
    <div
      class={hidden ? "hidden-words" : "table-room"}
      {...(hidden ? {} : { tabIndex: 0, role: "region", "aria-label": caption })}
    >
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {head.map((word, index) => (
              <th key={word} scope="col" class={side(index)}>
                {word}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              {row.map((cell, column) =>
                column === 0 ? (
                  <th key={column} scope="row" class={side(column)}>
                    {cell}
                  </th>
                ) : (
                  <td key={column} class={side(column)}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
