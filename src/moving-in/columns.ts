import { plainText } from '../queue/plain-text.ts'

/** Every column that is understood, in the order in which we write them. */
export const COLUMNS = [
  column(
    'customer',
    'Customer’s number',
    [
      'customer',
      'customer number',
      'customer no',
      'customer id',
      'client id',
      'cliente no',
      'numero de cliente',
    ],
    'Rows with the same number are one customer.',
  ),
  column('name', 'Name', [
    'name',
    'full name',
    'customer name',
    'client',
    'client name',
    'display name',
    'contact',
    'nombre',
    'nombre completo',
    'cliente',
  ]),
  column(
    'last name',
    'Last name',
    ['last name', 'surname', 'family name', 'apellido', 'apellidos'],
    'Where first and last names have columns of their own.',
  ),
  column('phone', 'Phone', [
    'phone',
    'phone number',
    'telephone',
    'mobile',
    'mobile phone',
    'cell',
    'cell phone',
    'tel',
    'main phone',
    'home phone',
    'telefono',
    'celular',
    'movil',
    'numero de telefono',
  ]),
  column('email', 'Email', [
    'email',
    'e-mail',
    'email address',
    'e-mail address',
    'mail',
    'main email',
    'correo',
    'correo electronico',
    'email principal',
  ]),
  column(
    'property',
    'Property’s number',
    ['property', 'property number', 'property id', 'site id', 'numero de propiedad'],
    'Rows of a customer with the same number are one property.',
  ),
  column('street', 'Street and number', [
    'street',
    'street address',
    'address',
    'service address',
    'address 1',
    'address line 1',
    'street 1',
    'property address',
    'calle',
    'direccion',
    'domicilio',
  ]),
  column(
    'town',
    'Town',
    ['town', 'city', 'service city', 'ciudad', 'localidad', 'pueblo'],
    'Written after the street.',
  ),
  column('postcode', 'ZIP code or postcode', [
    'postcode',
    'zip',
    'zip code',
    'zipcode',
    'postal code',
    'post code',
    'service zip',
    'codigo postal',
    'cp',
    'c.p.',
  ]),
  column('gate', 'Gate', ['gate', 'gate code', 'access', 'porton', 'puerta', 'acceso']),
  column('dog', 'Dog', ['dog', 'dogs', 'pets', 'perro', 'perros', 'mascotas']),
  column(
    'bed',
    'Beds',
    [
      'bed',
      'beds',
      'size',
      'bed size',
      'measurements',
      'quantity',
      'amount',
      'jardinera',
      'jardineras',
      'medidas',
      'cantidad',
      'tamano',
    ],
    '“20 by 5”, “9 across”, “6 cubic yards”; several with semicolons between.',
  ),
  column('count', 'How many of these', ['count', 'how many', 'number of beds', 'cuantas', 'cuantos']),
  column('material', 'Material', [
    'material',
    'mulch',
    'product',
    'finish',
    'mulch type',
    'producto',
    'mantillo',
  ]),
  column('depth', 'Depth', ['depth', 'profundidad', 'espesor']),
  column('planted', 'Planted', ['planted', 'plantas'], 'open, half, or full.'),
  column('old mulch', 'Old mulch', ['old mulch', 'mantillo viejo']),
  column('measured by', 'Measured by', ['measured by', 'medido con']),
] as const

/** A column of ours: its name in the files that we write, what the page calls it, what others call it as plain text. */
function column<Name extends string>(name: Name, label: string, known: string[], hint?: string) {
  return { name, label, known, ...(hint && { hint }) }
}

export type ColumnName = (typeof COLUMNS)[number]['name']

/** Which column of a file, counted from 0, is which of ours; one that is left out isn't in the file. */
export type Matched = Partial<Record<ColumnName, number>>

/** The columns of the files that we write: those two that belong to others in one are left out. */
export const WRITTEN = COLUMNS.map(({ name }) => name).filter(name => name !== 'last name' && name !== 'town')

/** Guesses by the names in the first row, in English or Spanish; none of the file's columns is taken twice. */
export function guessColumns(header: string[]): Matched {
  const names = header.map(bareName)
  const taken = new Set<number>()
  const matched: Matched = {}
  // Whoever has both means one of them by "name".
  const firstName = names.findIndex(name =>
    ['first name', 'given name', 'nombre de pila', 'nombres'].includes(name),
  )
  if (firstName >= 0) take('name', firstName)
  for (const { name, known } of COLUMNS) {
    if (name in matched) continue
    const at = known
      .map(word => names.findIndex((one, index) => one === word && !taken.has(index)))
      .find(index => index >= 0)
    if (at !== undefined) take(name, at)
  }
  return matched

  function take(name: ColumnName, at: number) {
    matched[name] = at
    taken.add(at)
  }
}

function bareName(cell: string): string {
  return plainText(cell)
    .replace(/[^\p{L}\p{N}.-]+/gu, ' ')
    .trim()
}
