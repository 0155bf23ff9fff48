import { posix } from 'node:path'
import type { SourceFile } from './files.ts'

/**
 * The rooms under src in their order: each imports only from itself and from those above it, `app` and `demo` from
 * all. A folder that isn't listed belongs to the room that holds it. DEVELOPERS.md shows this list.
 */
export const ROOMS: [room: string, holds: string][] = [
  ['lib', 'pure helpers that know nothing of beds: decimals and money, dates, tokens, typed text'],
  ['config.ts', 'the settings; nothing else reads the environment'],
  [
    'limits',
    'what keeps one visitor from stalling the others: a budget of work, and threads for what takes long',
  ],
  ['junk', 'what speaks for a request being junk: points and reasons, and what came before'],
  ['estimate/units', 'the two unit systems, and a figure as it is echoed'],
  [
    'estimate/table',
    'what a rate table is: every figure with all that is known of it, the schema, older ones brought up to date',
  ],
  ['estimate/shapes', 'each shape a bed can have, in one place'],
  ['estimate/job', 'a bed and a job as understood: quantities, extras, errors, terms, outline'],
  ['estimate/reading', 'what people type, read into a job'],
  ['estimate/understood', 'what was understood of a job, as it is stored and recalled'],
  ['estimate/labor', 'labor hours, task by task; the way to a job'],
  ['estimate/packs', 'what to buy, and how often to fetch it'],
  ['estimate/tax', 'tax on the lines of a price, and on what a job buys'],
  ['estimate/price', 'the lines of a price, the firm price, what the job costs'],
  ['estimate/scenarios', '1,024 scenarios and the range they give'],
  ['estimate/ballpark', 'the ballpark, its cautions, and the answer to other programs'],
  ['estimate/worksheet', 'the steps of every figure, told in words'],
  ['estimate/starter', 'what a rate table starts with'],
  ['drawing', 'beds, ranges and room as SVG'],
  [
    'language',
    'every sentence that homeowners and helpers read, in two languages and by country; numbers and dates in words',
  ],
  ['db', 'the two stores, the tables, migrating'],
  ['http', 'what is under every page: routes, forms, sessions’ cookies, headers, faults, rendering'],
  ['deps.ts', 'what the application is built from'],
  ['photos', 'pictures made safe'],
  ['paper', 'papers as PDF: from a plain view of words, amounts and drawings'],
  ['business', 'the business’s own settings'],
  ['outbox', 'what is to be said, written in the transaction that causes it'],
  ['account', 'signing in, staff, sessions, the page Settings'],
  ['rates/start', 'every figure that a table starts with, in words, until it was looked at'],
  ['rates/csv', 'the rate table as CSV files, pure'],
  ['rates', 'rate-table versions, the draft of the next one, photos of finishes'],
  ['first-run', 'setting the business up, once'],
  ['places', 'customers, places and their beds from year to year: recognizing, joining, keeping apart'],
  ['papers', 'files that are kept: what firms ask for, and the certificates that they give'],
  ['requests', 'the homeowner’s form, the live ballpark, sending; stages, history, links'],
  ['days', 'work days and their room'],
  ['visits', 'arranging a visit; the site-visit sheet'],
  ['quotes', 'pricing, revisions, the worksheet’s page, handing the booking link over'],
  ['payments', 'deposits, and money as it changes hands'],
  ['on-hand', 'what is left of each pack, and where: moves that are only added, and their balance'],
  ['job-sheets', 'what the crew carries for one job: beds drawn, what each gets, what to watch out for'],
  ['loads', 'the load list of a work day: what to buy, trips, what was got'],
  ['orders', 'suppliers, what is to be ordered by when, and orders'],
  ['bookings', 'the booking link: reading, accepting, choosing a day; whatever gives a day back'],
  ['closing', 'how a job went: closing it, opening it again'],
  ['billing', 'bills and credit memos, made of what was accepted and done'],
  ['own-page', 'the homeowner’s own page'],
  ['store-backup.ts', 'how the nightly backups went'],
  ['queue', 'the staff’s list, one request, the page Days'],
  ['people', 'the pages of customers and places; who is the same'],
  ['accountant', 'what the accountant asks for of a period: on a page, and as CSV files'],
  ['offers', 'what sells: to past customers who agreed, and how they stop it'],
  ['moving-in', 'customers, places and beds from a spreadsheet, and out into one'],
  ['privacy', 'what is kept of people and for how long; taking one person’s data out, and erasing it'],
  [
    'letters',
    'the job queue’s worker, SMTP, the gateway for texts, the page Outbox; the messages are handed in',
  ],
  ['messages.ts', 'the messages of all rooms, gathered'],
  ['secret-key.ts', 'the key that links are made from'],
  ['key-check.ts', 'whether the store knows the key, and taking another'],
  ['fill-understood.ts', 'what was understood of jobs stored before that was kept'],
  [
    'fill-people.ts',
    'what customers and places are recognized by, and beds as rows, of what was stored before',
  ],
  ['backup', 'all of a store in one file, and from it into an empty store'],
  ['explain.ts', 'why something failed, in one plain line'],
  ['operations', 'nightly backups, what is well and what is not, metrics'],
  ['command', 'the command line: a command a file; the socket by which the running service does its part'],
  ['app.ts', 'every plugin, hook and route scope, by hand and in order'],
  ['serve.ts', 'starting, listening, closing with grace'],
  ['main.ts', 'the program'],
  ['demo', 'the invented business and its stories'],
]

interface Import {
  from: string
  to: string
}

/** Every import of one of these files by another, of types too. */
export function importsOf(files: SourceFile[]): Import[] {
  return files.flatMap(({ path, text }) =>
    [...text.matchAll(/(?:\bfrom\s+|\bimport\(\s*|^import\s+)'(\.{1,2}\/[^']+)'/gm)].map(([, there]) => ({
      from: path,
      to: posix.join(posix.dirname(path), there!),
    })),
  )
}

/** The room that a file of src belongs to: the deepest that is listed; undefined where none is. */
export function roomOf(path: string, rooms = ROOMS): string | undefined {
  const inner = path.replace(/^src\//, '')
  return rooms
    .map(([room]) => room)
    .filter(room => inner === room || inner.startsWith(`${room}/`))
    .sort((a, b) => b.length - a.length)[0]
}

/** What goes against the order, a sentence each: an import of a room further down, or a file in no room. */
export function againstTheOrder(files: SourceFile[], rooms = ROOMS): string[] {
  const at = (room: string) => rooms.findIndex(([name]) => name === room)
  const homeless = files.filter(({ path }) => !roomOf(path, rooms)).map(({ path }) => `${path} is in no room`)
  const upward = importsOf(files)
    .filter(({ to }) => to.startsWith('src/'))
    .flatMap(({ from, to }) => {
      const [here, there] = [roomOf(from, rooms), roomOf(to, rooms)]
      if (!here || !there || at(there) <= at(here)) return []
      return [`${from} imports ${to}, but ${there} stands below ${here}`]
    })
  return [...homeless, ...upward]
}

/** Circles of files that import each other, the files of each in the order of the way round. */
export function circlesAmong(files: SourceFile[]): string[][] {
  const known = new Set(files.map(({ path }) => path))
  const next = new Map<string, string[]>()
  for (const { from, to } of importsOf(files))
    if (known.has(to)) next.set(from, [...(next.get(from) ?? []), to])
  const done = new Set<string>()
  const circles: string[][] = []
  const walk = (path: string, way: string[]): void => {
    const before = way.indexOf(path)
    if (before >= 0) circles.push(way.slice(before))
    if (before >= 0 || done.has(path)) return
    for (const there of next.get(path) ?? []) walk(there, [...way, path])
    done.add(path)
  }
  for (const path of known) walk(path, [])
  return circles
}

/** The list as the table of DEVELOPERS.md. */
export function printRooms(): string {
  const rows = ROOMS.map(
    ([room, holds]) => `| \`src/${room}${room.endsWith('.ts') ? '' : '/'}\` | ${holds} |`,
  )
  return ['| room | holds |', '|---|---|', ...rows].join('\n')
}
