import type { CsvFault, Field, RowRead } from './rows.ts'

/** Where something was read, and what stood there. */
export interface Place {
  file: string
  row: number
  column: string
  text: string
}

type Node = { [step: string]: unknown }

/** A rate table as it is put together from files, not checked yet; remembers where each part of it was read. */
export class TableParts {
  readonly body: Node = {}
  readonly faults: CsvFault[] = []
  private readonly places = new Map<string, Place>()

  /** Puts a value at a dotted path: steps that are numbers count the entries of a list. */
  put(path: string, value: unknown, place?: Place): void {
    const steps = path.split('.')
    let node = this.body
    steps.slice(0, -1).forEach((step, index) => {
      node[step] ??= /^\d+$/.test(steps[index + 1]!) ? [] : {}
      node = node[step] as Node
    })
    if (value !== undefined) node[steps.at(-1)!] = value
    if (!place) return
    this.places.set(path, place)
    const whole = steps.slice(0, -1).join('.')
    // A fault of a whole, such as a pair of figures, is shown at its first one.
    if (whole && !this.places.has(whole)) this.places.set(whole, place)
  }

  /** Puts what a row holds under a path; the row stands for it where a fault is of the whole. */
  putFields(path: string, fields: Field[], row: RowRead): void {
    this.places.set(path, placeOf(row, fields[0]!.name))
    for (const { name, path: within, cell } of fields)
      this.put(`${path}.${within}`, cell.read(row.cells[name]!, row.decimalComma), placeOf(row, name))
  }

  list(path: string): unknown[] {
    const found = path.split('.').reduce<unknown>((node, step) => (node as Node)?.[step], this.body)
    return Array.isArray(found) ? found : []
  }

  /** Where a path was read, or the nearest part of the table that holds it. */
  placeOf(path: string): Place | undefined {
    const steps = path.split('.')
    for (let length = steps.length; length > 0; length--) {
      const place = this.places.get(steps.slice(0, length).join('.'))
      if (place) return place
    }
    return undefined
  }

  /** Every cell that was read and is meant. */
  placesWhere(isMeant: (place: Place) => boolean): Place[] {
    const cells = new Map([...this.places.values()].map(place => [JSON.stringify(place), place]))
    return [...cells.values()].filter(isMeant)
  }

  fault(row: RowRead, column: string, message: string): void {
    this.faults.push({ file: row.file, row: row.number, column, message })
  }
}

export function placeOf(row: RowRead, column: string): Place {
  return { file: row.file, row: row.number, column, text: row.cells[column] ?? '' }
}
