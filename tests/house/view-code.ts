import { Eta } from 'eta'
import type { SourceFile } from './files.ts'
import { blank, endOf, pieces, withoutTexts } from './view-tokens.ts'

/** What a template does with what it is given, as read from its code. Names of templates are without `views/`. */
export interface ViewCode {
  name: string
  /** All of its code, in one: what it puts out is handed to a function `out`. */
  code: string
  /** Names read of `it`, by the template itself. */
  reads: string[]
  /** Names that its first comment says it takes from whoever includes it, as `{ label, hint? }`; whether it can do without. */
  takes: Map<string, { optional: boolean }>
  calls: Call[]
  /** Uses of `it` that can't be followed, as they stand. */
  unclear: string[]
}

/** One `include` or `layout`. */
export interface Call {
  kind: 'include' | 'layout'
  /** The templates it may bring in: more than one where a condition chooses. */
  to: string[]
  gives: string[]
  /** What it hands on, as it stands: '' for nothing. */
  data: string
  /** Where the call stands in the code. */
  from: number
  end: number
  /** Whether `it` is handed on in so many words. Eta adds what `it` holds in any case. */
  handsOn: boolean
  /** Whether it spreads something whose names can't be seen. */
  open: boolean
}

const eta = new Eta({ useWith: false })

/** Reads a template's code. */
export function readView({ path, text }: SourceFile): ViewCode {
  const tags = eta.parse(text).filter(part => typeof part !== 'string')
  const whole = tags
    .map(({ t, val }) => (t === 'e' ? val : `out(${val}${val.includes('//') ? '\n' : ''})`))
    .join('\n;')
  const code = withoutTexts(whole)
  const found = callsIn(code, whole)
  const own = found.spans.reduce((rest, [from, to]) => blank(rest, from, to), code)
  const taken = destructured(own)
  const rest = own.replace(DESTRUCTURED, ' ')
  const dotted = [...rest.matchAll(/(?:(?<![\w$.])|\.\.\.)it\??\.([\w$]+)/g)].map(read => read[1]!)
  const unclear = rest.match(/(?:(?<![\w$.])|\.\.\.)it\b(?!\s*\??\.[\w$])[^\n]{0,20}/g) ?? []
  return {
    name: path.replace(/^views\//, '').replace(/\.eta$/, ''),
    reads: [...new Set([...taken, ...dotted])],
    code: whole,
    takes: declared(whole),
    calls: found.calls,
    unclear: [...found.unclear, ...unclear.map(use => use.trim())],
  }
}

const DESTRUCTURED = /\{((?:[^{}]|\{[^{}]*\})*)\}\s*=\s*it\b(?!\s*\??[.[(])/g

function destructured(code: string): string[] {
  return [...code.matchAll(DESTRUCTURED)].flatMap(([, inner]) =>
    pieces(inner!)
      .map(piece => piece.text.split(/[:=]/)[0]!.trim())
      .filter(name => name !== ''),
  )
}

function declared(code: string): ViewCode['takes'] {
  const start = /^\s*\/\*\s*\{/.exec(code)?.[0].length
  if (!start) return new Map()
  const names = pieces(code.slice(start, endOf(code, start)).replace(/<[^<>]*>/g, ''))
    .map(({ text }) => /^(\w+)(\?)?/.exec(text))
    .filter(match => match !== null)
  return new Map(names.map(([, name, mark]) => [name!, { optional: mark === '?' }]))
}

function callsIn(code: string, whole: string) {
  const calls: Call[] = []
  const unclear: string[] = []
  const spans: [from: number, to: number][] = []
  for (const { 1: kind, index, 0: head } of code.matchAll(/\b(include|layout)\(/g)) {
    const start = index + head.length
    const end = endOf(code, start)
    const [path, given] = pieces(code.slice(start, end), start)
    const to = [...whole.slice(start, path!.end).matchAll(/'\/?([^']+)'/g)].map(match => match[1]!)
    const data = given ? whole.slice(given.from, end).trim() : ''
    const seen = { gives: [], handsOn: false, open: false }
    const call: Call = { kind: kind as Call['kind'], to, data, from: index, end: end + 1, ...seen }
    if (!to.length) unclear.push(whole.slice(index, start + 30))
    if (given?.text === 'it') {
      call.handsOn = true
      spans.push([given.from, given.to])
    } else if (given?.text.startsWith('{')) {
      for (const piece of pieces(code.slice(given.from + 1, given.to - 1), given.from + 1)) {
        const name = /^[\w$]+/.exec(piece.text)?.[0]
        if (piece.text === '...it') {
          call.handsOn = true
          spans.push([piece.from, piece.to])
        } else if (name) call.gives.push(name)
        else if (piece.text) call.open = true
      }
    } else if (given?.text) unclear.push(whole.slice(index, given.to))
    calls.push(call)
  }
  return { calls, unclear, spans }
}
