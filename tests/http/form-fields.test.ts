import { describe, expect, test } from 'vitest'
import { FormFields } from '../../src/http/form-fields.ts'
import { Uploaded } from '../../src/http/uploaded.ts'

const MISSING = 'Give it.'

describe('a form’s fields', () => {
  test('give values where nothing is wrong', () => {
    const fields = new FormFields({ name: ' Ann\tLee ', note: 'one\r\ntwo\n', hours: '1,250.5', sure: 'yes' })
    const reading = fields.reading({
      name: fields.line('name', { most: 10, tooLong: 'Too long.', missing: MISSING }),
      note: fields.lines('note', { most: 10, tooLong: 'Too long.' }),
      hours: fields.figure('hours', { places: 2, missing: MISSING }),
      least: fields.figure('least', { places: 2 }),
      sure: fields.tick('sure'),
    })
    const values = { name: 'Ann Lee', note: 'one\ntwo', hours: '1250.5', least: null, sure: true }
    expect(reading).toEqual({ ok: true, values })
  })

  test('say what is missing, too long, unreadable or beyond its limits, and keep what was typed', () => {
    const sent = {
      name: '',
      note: 'too long',
      hours: 'six',
      days: '400',
      amount: 'x',
      day: '2026-02-30',
      one: 'c',
    }
    const fields = new FormFields(sent)
    fields.line('name', { most: 10, tooLong: 'Too long.', missing: MISSING })
    fields.lines('note', { most: 3, tooLong: 'Too long.' })
    fields.figure('hours', { places: 2, missing: MISSING, unreadable: 'Give hours.' })
    fields.wholeNumber('days', { least: 1, most: 365, outside: 'From 1 to 365.' })
    fields.amount('amount', 'Give an amount.')
    fields.day('day', 'Give a day.')
    fields.choice('one', ['a', 'b'], 'Pick one.')
    expect(fields.reading({})).toEqual({
      ok: false,
      typed: sent,
      errors: {
        name: MISSING,
        note: 'Too long.',
        hours: 'Give hours.',
        days: 'From 1 to 365.',
        amount: 'Give an amount.',
        day: 'Give a day.',
        one: 'Pick one.',
      },
    })
  })

  test('keep the first fault of a field', () => {
    const fields = new FormFields({})
    fields.fault('name', 'First.')
    fields.fault('name', 'Second.')
    expect(fields.errors).toEqual({ name: 'First.' })
  })

  test('count the last of a field sent twice, and nothing that is no text', () => {
    const fields = new FormFields({ name: ['one', 'two'], file: { a: 1 } })
    expect([fields.text('name'), fields.has('file'), new FormFields(null).text('name')]).toEqual([
      'two',
      false,
      '',
    ])
  })
})

test('groups and rows read and fault by their whole names, rows in the order of their numbers, without gaps', () => {
  const fields = new FormFields({
    'added.10.amount': '1',
    'added.10.for[]': 'edge',
    'added.2.amount': 'x',
    'added.007.amount': '7',
    'addedup.1.amount': '3',
  })
  const rows = fields.rows('added')
  expect(rows.map(row => row.amount('amount', MISSING))).toEqual([null, '7.00', '1.00'])
  expect([rows[2]!.ticks('for'), rows[2]!.names()]).toEqual([['edge'], ['amount']])
  fields.group('visit').day('date', MISSING)
  expect(fields.errors).toEqual({ 'added.0.amount': MISSING, 'visit.date': MISSING })
  expect(fields.typed).toEqual({
    'added.0.amount': 'x',
    'added.1.amount': '7',
    'added.2.amount': '1',
    'addedup.1.amount': '3',
  })
})

test('lists of ticks are no field to be shown again', () => {
  const fields = new FormFields({ 'days[]': ['1', '5'], other: 'x' })
  expect([fields.ticks('days'), fields.ticks('none'), fields.typed]).toEqual([['1', '5'], [], { other: 'x' }])
})

test('a secret is read as it was typed, and never shown again', () => {
  const fields = new FormFields({ 'owner.password': ' three  barrows ', 'owner.name': 'Ann' })
  expect(fields.group('owner').secret('password')).toBe(' three  barrows ')
  expect(fields.typed).toEqual({ 'owner.name': 'Ann' })
})

test('what a page carries along is a whole number, or 0', () => {
  const fields = new FormFields({ version: '12', wrong: '1e3', long: '9'.repeat(30) })
  expect(['version', 'wrong', 'long', 'none'].map(name => fields.carried(name))).toEqual([12, 0, 0, 0])
})

test('a form with a file gives its fields and the file', () => {
  const uploaded = new Uploaded()
  uploaded.fields.seen = '3'
  uploaded.files.photo = new File(['x'], 'photo.png')
  const fields = new FormFields(uploaded)
  expect([fields.text('seen'), fields.file('photo')?.name, fields.file('none')]).toEqual([
    '3',
    'photo.png',
    null,
  ])
})
