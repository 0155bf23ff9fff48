import { describe, expect, it, test } from 'vitest'
import { addressKey } from '../../src/places/address-key.ts'

/** Each line is one address in many spellings; the first is plain. */
const SAME = [
  [
    '12 Fern Lane',
    '12 fern ln',
    ' 12  FERN LN. ',
    '12 Fern Lane, Austin',
    '12 Fern Lane, Austin, TX',
    '12, Fern Lane',
    'No. 12 Fern Lane',
  ],
  ['12 Fern Lane', '12 Fern Lane Austin TX', '12 Fern Ln Austin TX 78702', '12 Fern Ln St Paul'],
  ['6 Foxglove Close', '6 foxglove cl', '6 Foxglove Close, Fern Hollow'],
  ['40 North Oak Street', '40 N Oak St', '40 N. Oak Str.', '40 n oak st, Springfield'],
  ['40 Oak Street NW', '40 Oak St. N.W.', '40 oak street northwest'],
  ['500 Saint James Avenue', '500 St. James Ave', '500 St James Av'],
  ['7 O’Neill Court', "7 O'Neill Ct", '7 ONeill Ct'],
  ['9 Mount Olive Road', '9 Mt. Olive Rd'],
  ['21 Fifth Avenue', '21 5th Ave'],
  [
    '3 Quince Court Apt 4B',
    '3 Quince Ct #4B',
    '3 Quince Ct, Apt. 4-B',
    '3 Quince Court Unit 4b',
    'Apt 4B, 3 Quince Court',
    '3 Quince Ct 4B',
    '3 Quince Ct # 4 B',
  ],
  ['12a Fern Lane', '12A Fern Ln', '12 A Fern Lane', '12-A Fern Lane'],
  ['1450 County Road 12', '1450 County Rd 12', '1450 county road 12, Fern Hollow'],
  ['88 Highway 290', '88 Hwy 290'],
  ['PO Box 17', 'P.O. Box 17', 'p o box 17', 'PO Box 17, Austin'],
  ['Peña Street 5', '5 Pena St'],
  ['Lindenstraße 5', 'Lindenstrasse 5', '5 Lindenstraße'],
  ['12-34 56th Road', '12-34 56th Rd'],
  ['5 Avenida Juárez', '5 Av. Juarez'],
  ['Calle Mayor 5', 'C/ Mayor 5', 'C. Mayor, 5'],
  ['10 Colorado Springs Drive', '10 Colorado Spgs Dr'],
  ['4 Fern Lane, Colorado Springs', '4 Fern Lane Colorado Springs', '4 Fern Ln'],
]

describe('spellings of one address come to the same', () => {
  it.each(SAME.flatMap(([plain, ...others]) => others.map(other => [plain!, other])))(
    '%s is %s',
    (plain, other) => expect(addressKey(other, '78702').street).toBe(addressKey(plain, '78702').street),
  )
})

const OTHERS = [
  ['12 Fern Lane', '13 Fern Lane'],
  ['12 Fern Lane', '12 Fern Court'],
  ['12 Fern Lane', '12a Fern Lane'],
  ['12 Fern Lane', '112 Fern Lane'],
  ['40 North Oak Street', '40 South Oak Street'],
  ['40 Oak Street NW', '40 Oak Street'],
  ['3 Quince Court Apt 4', '3 Quince Court Apt 5'],
  ['3 Quince Court Apt 4', '3 Quince Court'],
  ['1450 County Road 12', '1450 County Road 13'],
  ['PO Box 17', 'PO Box 18'],
]

it.each(OTHERS)('%s is not %s', (one, other) =>
  expect(addressKey(one, '').street).not.toBe(addressKey(other, '').street),
)

test('a key is what stands in the table, so that it can be read', () => {
  expect(addressKey('3 Quince Court, Apt. 4-B', '43004-1234')).toEqual({
    street: '3 quince ct #4b',
    postcode: '43004',
  })
  expect(addressKey('40 North Oak Street', 'sw1a 1aa')).toEqual({
    street: '40 n oak st',
    postcode: 'SW1A1AA',
  })
})

it.each(['', '   ', '12', '???', '12, 14', '#4'])('%j is too little to be known by', street =>
  expect(addressKey(street, '43004').street).toBeNull(),
)

test('whatever is typed, a key comes to itself', () => {
  for (const street of ['x'.repeat(200), '1 '.repeat(100), '🌱 12 Fern', '#'.repeat(200), ', , ,']) {
    const { street: key } = addressKey(street, '')
    if (key) expect(addressKey(key, '').street).toBe(key)
  }
})
