import type { SourceFile } from './files.ts'

const QUOTED = /(['"])([a-z]+(?:\.[\w-]+)+)\1/g
const TEMPLATE = /`([a-z]+\.(?:[^`$\s]|\$\{[^{}`]*\})*)`/g

/** What a file has in quotes that looks like the key of a sentence. */
export function keysAlike({ path, text }: SourceFile): { path: string; key: string }[] {
  return [...text.matchAll(QUOTED)].map(([, , key]) => ({ path, key: key! }))
}

/** What a file has in quotes where it says what `t` is asked for. */
export function keysAsked({ path, text }: SourceFile): { path: string; key: string }[] {
  return askedIn(text).flatMap(asked => keysAlike({ path, text: asked }))
}

/** The texts that a file puts together and that look like keys, as 'form.lying-${value}'. */
export function keysMade({ path, text }: SourceFile): { path: string; made: string }[] {
  return [...text.matchAll(TEMPLATE)]
    .map(([, made]) => ({ path, made: made! }))
    .filter(({ made }) => made.includes('${'))
}

/** The same where it says what `t` is asked for. */
export function keysAskedMade({ path, text }: SourceFile): { path: string; made: string }[] {
  return askedIn(text).flatMap(asked => keysMade({ path, text: asked }))
}

/** Words in quotes, names of properties and numbers that some key has in it, so that they may be what is put into one. */
export function partsIn(files: SourceFile[], keys: string[]): string[] {
  const found = files.flatMap(({ text }) => [...text.matchAll(/(['"])([\w-]+)\1|^ +(\w+)[:,]|\b(\d+)\b/gm)])
  const words = new Set(found.map(([, , word, name, figure]) => word ?? name ?? figure!))
  return [...words].filter(word => keys.some(key => key.includes(word)))
}

/** Matches the keys that can be put together so from these parts; an index is a number, as in the name of a field. */
export function patternOf(made: string, parts: string[]): RegExp {
  const pieces = made.split(/\$\{([^{}`]*)\}/).map((piece, at) => {
    if (at % 2 === 0) return RegExp.escape(piece)
    return piece === 'index' ? '\\d+' : `(?:${parts.join('|')})`
  })
  return new RegExp(`^${pieces.join('')}$`)
}

// What stands between `t(` and the comma or bracket that ends what is asked for.
function askedIn(text: string): string[] {
  return [...text.matchAll(/\bt\(/g)].map(({ index }) => {
    const rest = text.slice(index + 2)
    let depth = 0
    for (let at = 0; at < rest.length; at++) {
      const sign = rest[at]!
      if ('([{'.includes(sign)) depth += 1
      else if (')]}'.includes(sign) && depth-- === 0) return rest.slice(0, at)
      else if (
        sign === ',' &&
        depth === 0 &&
        !/^\s*(?:'en'|'es'|language|languageOf\(request\))$/.test(rest.slice(0, at))
      )
        return rest.slice(0, at)
    }
    return rest
  })
}
