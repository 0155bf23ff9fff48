import type { Call, ViewCode } from './view-code.ts'
import type { Said } from './view-types.ts'

const HEAD = `
declare function out(...put: unknown[]): void
declare function join(parts: string[]): string
declare function include(path: string, data?: object): string
`
// A property that isn't there, also where one like it is; a name that isn't, and one like it; the same as `{ name }`;
// an argument of another type, as a key that no sentence has; and what can't be read at all. What may be null or of any type is left to the templates.
const TOLD = /^TS(2339|2551|2304|2552|18004|2345|1\d{3})$/
const MARK = /^\/\*@(\S+) (\d+)\*\/$/

/**
 * The code of templates as functions for the compiler: each page is one, with all that it brings in written out at its
 * place, so that the types of what is handed on are known. Each piece is marked with its template and a count.
 */
export class ViewBodies {
  private readonly views: Map<string, ViewCode>
  private readonly written = new Map<string, number>()
  private text = HEAD

  constructor(views: ViewCode[]) {
    this.views = new Map(views.map(view => [view.name, view]))
  }

  /** Adds a page that is given data of this type. */
  add(page: string, data: string): void {
    this.text += `export const view${this.text.length} = (it: ${data}) => {${this.body(page)}\n}\n`
  }

  /** All of it. */
  source(): string {
    return this.text
  }

  /** What the compiler said of it, by template; of `it` itself the names are told elsewhere. */
  faults(said: Said[]): string[] {
    const lines = this.text.split('\n')
    const places = new Map<string, Set<string>>()
    for (const { line, column, code, words } of said) {
      const text = lines[line - 1]!
      if (!TOLD.test(code) || isOfIt(text, column - 1)) continue
      const marked = lines.findLastIndex((one, index) => index < line && MARK.test(one))
      const [, name = '', count = ''] = MARK.exec(lines[marked] ?? '') ?? []
      const start = text.replace(/^[\s;]+/, '').slice(0, 120)
      const fault = `${name}: ${words.split(" on type '")[0]}, in ${start}`
      places.set(fault, (places.get(fault) ?? new Set()).add(count))
    }
    return [...places].filter(([fault, counts]) => this.isFault(fault, counts.size)).map(([fault]) => fault)
  }

  // What partials for all are handed has this field here and another there: a fault is what it has nowhere.
  private isFault(fault: string, places: number): boolean {
    const name = fault.split(':')[0]!
    return !name.startsWith('partials/') || this.written.get(name) === places
  }

  private body(name: string): string {
    const view = this.views.get(name)
    if (!view) return ''
    const count = (this.written.get(name) ?? 0) + 1
    this.written.set(name, count)
    const mark = `\n/*@${name} ${count}*/\n`
    let [text, at] = [mark, 0]
    for (const call of view.calls) {
      if (call.from < at) continue
      const brought = call.to.map(to => this.brought(call, to) + mark)
      text += `${view.code.slice(at, call.from)}join([${brought.join(', ')}])`
      at = call.end
    }
    return text + view.code.slice(at)
  }

  private brought({ kind, data }: Call, to: string): string {
    const optional = [...(this.views.get(to)?.takes ?? [])].filter(([, { optional }]) => optional)
    const untold = `...({} as { ${optional.map(([name]) => `${name}?: any`).join('; ')} })`
    const layout = kind === 'layout' ? "body: '', " : ''
    return `((it) => {${this.body(to)}\nreturn ''\n})({ ...it, ${untold}, ${layout}...(${data || '{}'}) })`
  }
}

/** Whether what stands there is a name read of `it`. */
function isOfIt(line: string, at: number): boolean {
  return /(?<![\w$.])it\??\.$/.test(line.slice(0, at)) || /^[^{]*\}\s*=\s*it\s*(;|$)/.test(line.slice(at))
}
