const HERE = 'http://here.invalid'
const LONGEST = 2000

/**
 * A path of our own to go on to, with its query, or else the fallback: never what a browser could read as another
 * site's address. What it gives, it would give again.
 */
export function localPath(back: string | undefined, fallback: string): string {
  if (!back || !isPlain(back)) return fallback
  const there = new URL(back, HERE)
  const path = there.pathname + there.search
  // Reading takes dots away and writes others: /.//site has become //site by now.
  return there.origin === HERE && isPlain(path) ? path : fallback
}

function isPlain(path: string): boolean {
  return path.length <= LONGEST && /^\/(?!\/)[^\\\s]*$/.test(path)
}
