import type { Call, ViewCode } from './view-code.ts'

/** What a page and all that it brings in do with what the page is given: the names, and the templates that do so. */
export interface PageNames {
  page: string
  reads: Map<string, Set<string>>
  /** What a partial may be told and wasn't: Eta would hand it the page's own of that name. */
  leaks: Map<string, Set<string>>
}

/** A name that an include or a layout is given. */
interface Gift {
  from: string
  to: string
  name: string
}

type Given = Map<string, { by: string; gifts: Gift[] }>

/** Follows pages through what they include, and keeps what is wrong on the way. */
export class ViewTree {
  readonly faults = new Set<string>()
  readonly reached = new Set<string>()
  private readonly gifts = new Map<string, Gift>()
  private readonly used = new Set<Gift>()
  private readonly views: Map<string, ViewCode>

  constructor(views: ViewCode[]) {
    this.views = new Map(views.map(view => [view.name, view]))
    for (const { name, unclear } of views)
      for (const use of unclear) this.faults.add(`${name}: what it does with "${use}" can't be followed`)
  }

  /** What a page reads of its data, by itself and through its partials and its layout. */
  follow(page: string): PageNames {
    const names: PageNames = { page, reads: new Map(), leaks: new Map() }
    this.walk(page, page, new Map(), names)
    return names
  }

  /** After all pages: names that partials are given and don't read, and templates that no page brings in. */
  leftOver(): string[] {
    const unread = [...this.gifts.values()]
      .filter(gift => !this.used.has(gift))
      .map(({ from, to, name }) => `${to} doesn't read ${name}, which ${from} gives it`)
    const dead = [...this.views.keys()].filter(name => !this.reached.has(name))
    return [...unread, ...dead.map(name => `${name} is in no page`)]
  }

  private walk(name: string, includer: string, given: Given, names: PageNames): void {
    const view = this.views.get(name)
    if (!view) {
      this.faults.add(`${includer} brings in ${name}, which isn't there`)
      return
    }
    this.reached.add(name)
    for (const read of view.reads) this.read(view, read, given, names)
    for (const taken of view.takes.keys())
      if (!view.reads.includes(taken)) this.faults.add(`${name} says it takes ${taken}, and doesn't read it`)
    for (const call of view.calls)
      for (const to of call.to) this.walk(to, name, this.handed(call, name, to, given, names), names)
  }

  private read(view: ViewCode, read: string, given: Given, names: PageNames): void {
    const from = given.get(read)
    if (from) for (const gift of from.gifts) this.used.add(gift)
    else add(names.reads, read, view.name)
  }

  /** What a template finds given beside the page's data: what it is told by this call, and before it by those around. */
  private handed(call: Call, from: string, to: string, around: Given, names: PageNames): Given {
    const given = new Map(around)
    for (const name of call.gives) given.set(name, { by: from, gifts: [this.gift(from, to, name)] })
    if (call.kind === 'layout') given.set('body', { by: from, gifts: [] })
    for (const [name, { optional }] of this.views.get(to)?.takes ?? []) {
      if (call.gives.includes(name)) continue
      if (optional && !call.handsOn && around.has(name))
        this.faults.add(`${to} isn't given ${name} by ${from}, and finds that of ${around.get(name)!.by}`)
      if (optional && !around.has(name)) add(call.handsOn ? names.reads : names.leaks, name, to)
      if (optional || call.open) given.set(name, { by: from, gifts: around.get(name)?.gifts ?? [] })
    }
    return given
  }

  private gift(from: string, to: string, name: string): Gift {
    const key = `${from} ${to} ${name}`
    const gift = this.gifts.get(key) ?? { from, to, name }
    this.gifts.set(key, gift)
    return gift
  }
}

// Every page has these in any case: a partial may be handed them once more.
const AROUND_ALL = ['t', 'errors']

/** Names that a template is given by some and not by others, without a comment of its own that says which it takes. */
export function givenUnevenly(views: ViewCode[]): string[] {
  return views.flatMap(({ name, takes }) => {
    const calls = views.flatMap(view => view.calls.filter(call => call.to.includes(name)))
    const all = new Set(calls.flatMap(call => call.gives))
    return [...all]
      .filter(given => !takes.has(given) && !AROUND_ALL.includes(given))
      .filter(given => !calls.every(call => call.open || call.gives.includes(given)))
      .map(given => `${name} is given ${given} by some only: its first comment must say "${given}?"`)
  })
}

function add(map: Map<string, Set<string>>, key: string, value: string): void {
  map.set(key, (map.get(key) ?? new Set()).add(value))
}
