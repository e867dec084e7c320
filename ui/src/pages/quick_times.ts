/** Times that one press can tell: tomorrow, at the hours when people go. */

const HOURS = [8, 10, 13] as const;

/** Give tomorrow's times in the form that the case keeps: year, month, day, hour, in this machine's own time. */
export function quickTimes(now: Date): { hour: string; value: string }[] {
  const day = new Date(now.getFullYear(), now.getMonth(), now.getDate() + 1);
  const two = (number: number) => String(number).padStart(2, "0");
  const date = `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
  return HOURS.map((hour) => ({ hour: `${two(hour)}:00`, value: `${date}T${two(hour)}:00` }));
}
