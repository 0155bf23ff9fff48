import { Eta } from 'eta'
import type { SourceFile } from './files.ts'

/** What a template does with what it is given, as read from its code. Names of templates are without `views/`. */
export interface ViewCode {
  name: string
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
  /** Whether `it` is handed on in so many words. Eta adds what `it` holds in any case. */
  handsOn: boolean
  /** Whether it spreads something whose names can't be seen. */
  open: boolean
}

const eta = new Eta({ useWith: false })

/** Reads a template's code. */
export function readView({ path, text }: SourceFile): ViewCode {
  const tags = eta.parse(text).flatMap(part => (typeof part === 'string' ? [] : [part.val]))
  const whole = tags.join('\n;')
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
    const [path, given] = pieces(code.slice(start, endOf(code, start)), start)
    const to = [...whole.slice(start, path!.end).matchAll(/'\/?([^']+)'/g)].map(match => match[1]!)
    const call: Call = { kind: kind as Call['kind'], to, gives: [], handsOn: false, open: false }
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

/** The parts between commas that stand in no bracket, trimmed, with their places in the code. */
function pieces(code: string, offset = 0) {
  const cuts = [-1]
  for (let at = 0, depth = 0; at < code.length; at++) {
    if ('([{'.includes(code[at]!)) depth++
    if (')]}'.includes(code[at]!)) depth--
    if (code[at] === ',' && depth === 0) cuts.push(at)
  }
  return cuts.map((cut, index) => {
    const raw = code.slice(cut + 1, cuts[index + 1])
    const from = offset + cut + 1 + raw.length - raw.trimStart().length
    return { text: raw.trim(), from, to: from + raw.trim().length, end: offset + cut + 1 + raw.length }
  })
}

/** Where the bracket closes that was opened right before `start`. */
function endOf(code: string, start: number): number {
  let depth = 1
  let at = start
  for (; at < code.length; at++) {
    if ('([{'.includes(code[at]!)) depth++
    if (')]}'.includes(code[at]!) && --depth === 0) break
  }
  return at
}

const TOKEN =
  /\/\*[\s\S]*?\*\/|\/\/.*|'(?:\\.|[^'\\])*'|"(?:\\.|[^"\\])*"|(?<=[(,=:[!&|?{};]\s*)\/(?:\\.|\[(?:\\.|[^\]\\])*\]|[^/\\\n])+\/|[\s\S]/y
const TEMPLATE_PART = /\\[\s\S]|\$\{|[\s\S]/y

/** The code with every character of its strings, comments and regular expressions a space, so that all stays in place. */
export function withoutTexts(code: string): string {
  const open: string[] = []
  let out = ''
  while (out.length < code.length) {
    const inText = open.at(-1) === '`'
    const pattern = inText ? TEMPLATE_PART : TOKEN
    pattern.lastIndex = out.length
    const token = pattern.exec(code)![0]
    if (token === '`' && !inText) open.push(token)
    else if (token === (inText ? '${' : '{')) open.push(token)
    else if (token === (inText ? '`' : '}')) open.pop()
    if (inText) out += token === '${' ? ' {' : ' '.repeat(token.length)
    else out += token.length === 1 && token !== '`' ? token : ' '.repeat(token.length)
  }
  return out
}

function blank(code: string, from: number, to: number): string {
  return code.slice(0, from) + ' '.repeat(to - from) + code.slice(to)
}
