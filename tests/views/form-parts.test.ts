import { Eta } from 'eta'
import { HtmlValidate } from 'html-validate'
import { expect, test } from 'vitest'
import { translator } from '../../src/language/catalogue.ts'

const eta = new Eta({ views: new URL('../../views/', import.meta.url).pathname })
const validator = new HtmlValidate({ extends: ['html-validate:recommended'] })

function draw(partial: string, data: Record<string, unknown>): string {
  return eta.render(`/partials/${partial}`, { t: translator('en'), errors: {}, ...data })
}

async function complaints(markup: string): Promise<string[]> {
  const report = await validator.validateString(markup)
  return report.results.flatMap(result =>
    result.messages.map(message => `${message.ruleId}: ${message.message}`),
  )
}

function attribute(markup: string, tag: string, name: string): string | undefined {
  return new RegExp(`<${tag}[^>]*\\s${name}="([^"]*)"`).exec(markup)?.[1]
}

test('a refused field keeps what was typed and points to its hint, its error and its echo', async () => {
  const markup = draw('field', {
    name: 'beds.0.sizes.length',
    label: 'Length',
    hint: 'As you would say it',
    value: '12\' 6" <b>',
    errors: { 'beds.0.sizes.length': 'This is no length' },
    echo: '',
  })
  expect(attribute(markup, 'input', 'id')).toBe('beds-0-sizes-length')
  expect(attribute(markup, 'input', 'value')).toBe('12&#39; 6&quot; &lt;b&gt;')
  expect(attribute(markup, 'input', 'aria-invalid')).toBe('true')
  const described = attribute(markup, 'input', 'aria-describedby')!.split(' ')
  expect(described).toEqual(['hint', 'error', 'echo'].map(part => `beds-0-sizes-length-${part}`))
  for (const id of described) expect(markup).toContain(`id="${id}"`)
  expect(await complaints(markup)).toEqual([])
})

test('a field without hint or error points to nothing, and only an optional one says so', async () => {
  const markup = draw('field', { name: 'name', label: 'Your name', autocomplete: 'name', required: true })
  expect(markup).not.toContain('aria-')
  expect(markup).not.toContain('(optional)')
  expect(draw('field', { name: 'note', label: 'Note', optional: true, multiline: true })).toContain(
    '(optional)',
  )
  expect(await complaints(markup)).toEqual([])
})

test('what is chosen stays chosen in a select', () => {
  const options = ['UTC', 'America/Chicago'].map(value => ({ value, label: value }))
  const markup = draw('field', { name: 'timeZone', label: 'Time zone', options, value: 'America/Chicago' })
  expect(markup).toContain('<option value="America/Chicago" selected>')
  expect(markup).toContain('<option value="UTC">')
})

test('of several choices exactly the one given is checked, and the first has the bare id for the summary', async () => {
  const options = ['open', 'half', 'full'].map(value => ({ value, label: value, hint: `${value} hint` }))
  const markup = draw('choices', {
    name: 'beds.1.planted',
    legend: 'Planted',
    options,
    value: 'half',
    error: 'Pick one',
  })
  expect(markup.match(/ checked/g)).toHaveLength(1)
  expect(markup).toMatch(/id="beds-1-planted-2"[^>]* value="half"[^>]* checked/)
  expect(markup).toMatch(/id="beds-1-planted" name/)
  expect(attribute(markup, 'fieldset', 'aria-describedby')).toBe('beds-1-planted-error')
  expect(await complaints(markup)).toEqual([])
})

test('a tick can be ticked, refused and explained', async () => {
  const markup = draw('tick', {
    name: 'read',
    label: 'I have read it',
    hint: 'All of it',
    checked: true,
    error: 'Please tick it',
  })
  expect(markup).toContain(' checked')
  expect(attribute(markup, 'input', 'aria-describedby')).toBe('read-hint read-error')
  expect(await complaints(markup)).toEqual([])
})

test('the summary leads to each refused field, and is there only when something was refused', async () => {
  const markup = draw('errors', { errors: { 'beds.0.sizes.length': 'No length', '': 'Nothing works' } })
  expect(markup).toContain('<a href="#beds-0-sizes-length">No length</a>')
  expect(markup).toContain('<li>Nothing works</li>')
  expect(markup).toContain('autofocus')
  expect(await complaints(markup)).toEqual([])
  expect(draw('errors', {}).trim()).toBe('')
})

test.each([
  ['$1,240.00', '$1,240', '.00'],
  ['130', '130', ''],
  ['$1,240', '$1,240', ''],
  ['1.2083', '1', '.2083'],
  ['3,8', '3', ',8'],
])('figures are parted at the point: %s', (value, whole, part) => {
  const markup = draw('figures', { items: [{ label: 'Figure', value, unit: 'ft' }] })
  expect(markup).toContain(`<span class="whole">${whole}</span><span class="part">${part}</span>`)
})
