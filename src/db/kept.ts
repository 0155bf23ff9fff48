import type { Kysely, Transaction } from 'kysely'
import type { Store } from './open.ts'
import type { Database } from './schema.ts'

/** How what is kept is read, in a transaction in which nothing changes meanwhile, and whether it still holds by the clock. */
export interface HowToKeep<T> {
  read(trx: Transaction<Database>): Promise<T>
  holds(value: T): boolean
}

interface Copy<T> {
  value: T
  /** The standing number that it was read with. */
  number: number
  /** What this process had written as the database was last asked whether it is still so. */
  writes: number
}

/**
 * A copy in memory of what the standing number stands for. It is asked for again when this process has written
 * anything since, when another one has changed it and `look` notices, and when it no longer holds by the clock; the
 * value stays the same object as long as the number stays.
 */
export class Kept<T> {
  readonly #store: Pick<Store, 'db' | 'writes'>
  readonly #how: HowToKeep<T>
  #copy: Copy<T> | undefined
  #looking: { writes: number; value: Promise<T> } | undefined
  /** What this process had written as the database last failed to answer. */
  #failedAt: number | undefined
  #report: (fault: unknown) => void = () => {}

  constructor(store: Pick<Store, 'db' | 'writes'>, how: HowToKeep<T>) {
    this.#store = store
    this.#how = how
  }

  /** Where faults of the database go while the copy is given in its place: the first after each answer. */
  reportTo(report: (fault: unknown) => void): void {
    this.#report = report
  }

  /** What was known last, without asking; undefined before it was first read. */
  last(): T | undefined {
    return this.#copy?.value
  }

  /**
   * What is so now: all that this process wrote is in it. While the database doesn't answer it is what was known last.
   * @throws what the database does when nothing is known yet
   */
  async read(): Promise<T> {
    const copy = this.#copy
    const writes = this.#store.writes()
    if (copy?.writes === writes && this.#how.holds(copy.value)) return copy.value
    // One that was under way may have been read just before its moment was over.
    const looked = this.look().then(value => (this.#how.holds(value) ? value : this.look()))
    if (!copy) return looked
    const known = looked.catch(() => copy.value)
    // Whoever comes while the database is known to be away needn't wait for it to be away still.
    return this.#failedAt === writes ? copy.value : known
  }

  /** Asks the database whether the copy is still so, and reads it anew if not; those who ask meanwhile share it. */
  look(): Promise<T> {
    const writes = this.#store.writes()
    if (this.#looking?.writes !== writes) {
      const looking = { writes, value: this.#ask(writes) }
      this.#looking = looking
      const done = () => {
        if (this.#looking === looking) this.#looking = undefined
      }
      looking.value.then(done, done)
    }
    return this.#looking!.value
  }

  async #ask(writes: number): Promise<T> {
    try {
      const found = await this.#readUnlessSame()
      // One that began after a later write may be done already.
      if (!this.#copy || this.#copy.writes <= writes) this.#copy = { ...found, writes }
      this.#failedAt = undefined
      return found.value
    } catch (fault) {
      if (this.#failedAt === undefined) this.#report(fault)
      this.#failedAt = writes
      throw fault
    }
  }

  async #readUnlessSame(): Promise<Omit<Copy<T>, 'writes'>> {
    const copy = this.#copy
    const { db } = this.#store
    if (copy && this.#how.holds(copy.value) && copy.number === (await findStandingNumber(db))) return copy
    return db
      .transaction()
      .setIsolationLevel('repeatable read')
      .execute(async trx => ({ number: await findStandingNumber(trx), value: await this.#how.read(trx) }))
  }
}

async function findStandingNumber(db: Kysely<Database>): Promise<number> {
  const row = await db.selectFrom('standing_number').select('number').executeTakeFirst()
  return row?.number ?? 0
}
