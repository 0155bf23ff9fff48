import { expect, it } from 'vitest'
import { phoneKey } from '../../src/places/phone-key.ts'

it.each([
  ['(512) 555-0177', 'US', '+15125550177'],
  ['512.555.0177', 'US', '+15125550177'],
  ['5125550177', 'US', '+15125550177'],
  ['1 512 555 0177', 'US', '+15125550177'],
  ['+1 (512) 555-0177', 'US', '+15125550177'],
  ['+15125550177', 'GB', '+15125550177'],
  ['512-555-0177 ext. 12', 'US', '+15125550177'],
  ['020 7946 0123', 'GB', '+442079460123'],
  ['0044 20 7946 0123', 'GB', '+442079460123'],
  ['+44 20 7946 0123', 'US', '+442079460123'],
  ['+52 55 1234 5678', 'US', '+525512345678'],
])('%s in %s is %s', (typed, country, key) => expect(phoneKey(typed, country)).toBe(key))

it.each([
  ['', 'US'],
  ['555-0177', 'US'],
  ['call me', 'US'],
  ['(512) 555-0177', 'ZZ'],
  ['9'.repeat(400), 'US'],
])('%s in %s is none', (typed, country) => expect(phoneKey(typed, country)).toBeNull())
