import type { Business } from '../business/queries.ts'
import type { OnHandMoveKind } from '../db/schema/goods.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { NotFound } from '../http/errors.ts'
import { type Key, t } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import { packValue } from './form.ts'
import { nameOfPack, nameOfThing, packsListed, unitsOfPack } from './pack-words.ts'
import { findMoves, findOnHand, findOnHandById } from './queries.ts'

const MOVES_SHOWN = 50

const KINDS: Record<OnHandMoveKind, Key> = {
  leftover: 'hand.move-leftover',
  purchase: 'hand.move-purchase',
  loaded: 'hand.move-loaded',
  'put back': 'hand.move-put-back',
  'by hand': 'hand.move-by-hand',
}

export type OnHandRow = Awaited<ReturnType<typeof findOnHand>>[number]

/** What is on hand, in words without any money. */
export async function viewOnHand(deps: Deps, table: RateTable, language: Language) {
  const rows = await findOnHand(deps.db)
  const view = (wanted: OnHandRow[]) => wanted.map(row => viewRow(row, table, language))
  return {
    there: view(rows.filter(({ units }) => Number(units) > 0)),
    usedUp: view(rows.filter(({ units }) => Number(units) === 0)),
    packs: packsListed(table).map(pack => ({
      value: packValue(pack),
      label: `${nameOfThing(pack, table, language)}: ${nameOfPack(pack, table, language)}`,
    })),
  }
}

export type OnHandPage = Awaited<ReturnType<typeof viewOnHand>>

/**
 * One pack at a place with what came and went, before a move where that is told.
 * @throws {NotFound} when there is none
 */
export async function viewOnePack(
  deps: Deps,
  business: Business,
  table: RateTable,
  language: Language,
  { id, before }: { id: number; before: number | null },
) {
  const row = await findOnHandById(deps.db, id)
  if (!row) throw new NotFound()
  const moves = await findMoves(deps.db, id, before, MOVES_SHOWN + 1)
  const shown = moves.slice(0, MOVES_SHOWN)
  return {
    ...viewRow(row, table, language),
    seen: plain(row.units),
    moves: shown.map(move => ({
      units: signed(move.units, language),
      what: t(language, KINDS[move.kind]),
      facts: [move.number, move.by_name, move.note].filter(fact => fact !== null && fact !== '').join(', '),
      at: move.made_at,
      when: momentInWords(move.made_at, business.time_zone, language),
    })),
    older: moves.length > MOVES_SHOWN ? (shown.at(-1)?.id ?? null) : null,
  }
}

export type OnePackPage = Awaited<ReturnType<typeof viewOnePack>>

function viewRow(row: OnHandRow, table: RateTable, language: Language) {
  return {
    id: row.id,
    thing: nameOfThing(row, table, language),
    pack: nameOfPack(row, table, language),
    units: unitsOfPack(row.units, row, table, language),
    spot: row.spot || t(language, 'hand.yard'),
  }
}

function signed(units: string, language: Language): string {
  const words = figureInWords(plain(units.replace('-', '')), language, 3)
  return units.startsWith('-') ? `−${words}` : `+${words}`
}

function plain(units: string): string {
  return new Decimal(units).toFixed()
}
