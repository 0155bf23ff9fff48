/** Text of one line as typed: no control characters, no spaces around it or doubled in it. */
export function oneLine(typed: string): string {
  return typed
    .toWellFormed()
    .replace(/[\p{Cc}\s]+/gu, ' ')
    .trim()
}

/** Text of several lines as typed: lines end in \n, no other control characters, nothing blank around it. */
export function severalLines(typed: string): string {
  return typed
    .toWellFormed()
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n\t]/gu, '')
    .trim()
}
