import type { BedIn } from './bed-cell.ts'
import type { ColumnName } from './columns.ts'

export interface PlaceIn {
  street: string
  postcode: string
  gate: string
  dog: string
  beds: BedIn[]
}

export interface CustomerIn {
  /** The first row that tells of them. */
  row: number
  name: string
  phone: string
  email: string
  places: PlaceIn[]
}

/** What one row tells, its cells by our columns. */
export interface RowTold extends Omit<CustomerIn, 'places'>, Omit<PlaceIn, 'beds'> {
  cells: Record<ColumnName, string>
}

/**
 * Puts rows together that tell of one customer and of one place: by the numbers that the file has for them, else where
 * name, phone and mail are alike, and the address. Nobody is taken for somebody else by less than that.
 */
export class Gathered {
  readonly customers: CustomerIn[] = []
  beds = 0
  readonly #known = new Map<string, CustomerIn>()
  readonly #places = new Map<string, PlaceIn>()

  add(told: RowTold, beds: BedIn[], fault: (column: ColumnName, message: string) => void): void {
    const key = customerKey(told)
    const customer = this.#known.get(key) ?? this.#addCustomer(key, told)
    for (const name of ['name', 'phone', 'email'] as const)
      if (told[name] !== '' && told[name] !== customer[name])
        fault(name, `Row ${customer.row} has “${customer[name]}” for the same customer.`)
    this.beds += beds.length
    const { street, postcode, gate, dog, cells } = told
    if ([street, postcode, gate, dog, cells.property].every(cell => cell === '') && beds.length === 0) return
    const at = `${key}\n${placeKey(told)}`
    const place = this.#places.get(at) ?? this.#addPlace(at, customer, told)
    for (const name of ['street', 'postcode', 'gate', 'dog'] as const) {
      if (place[name] === '') place[name] = told[name]
      else if (told[name] !== '' && told[name].toLowerCase() !== place[name].toLowerCase())
        fault(name, `Another row has “${place[name]}” for the same property.`)
    }
    place.beds.push(...beds)
  }

  #addCustomer(key: string, { row, name, phone, email }: RowTold): CustomerIn {
    const customer = { row, name, phone, email, places: [] }
    this.customers.push(customer)
    this.#known.set(key, customer)
    return customer
  }

  #addPlace(key: string, customer: CustomerIn, { street, postcode, gate, dog }: RowTold): PlaceIn {
    const place = { street, postcode, gate, dog, beds: [] }
    customer.places.push(place)
    this.#places.set(key, place)
    return place
  }
}

function customerKey({ cells, name, phone, email, street, postcode }: RowTold): string {
  if (cells.customer !== '') return `number ${cells.customer}`
  const sure = phone !== '' || email !== '' ? [phone, email] : [street, postcode]
  return ['as told', name, ...sure].join('\n').toLowerCase()
}

function placeKey({ cells, street, postcode }: RowTold): string {
  return cells.property !== '' ? `number ${cells.property}` : `${street}\n${postcode}`.toLowerCase()
}
