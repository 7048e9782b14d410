/** How a column is called in messages: by its heading, else by its place. */
export function columnName(heading: string | undefined, column: number): string {
  const text = heading?.trim();
  return text ? `“${text}”` : `${column + 1}`;
}
