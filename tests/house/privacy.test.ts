import { expect, test } from 'vitest'
import { LONGEST } from '../../src/business/keeping.ts'
import { t } from '../../src/language/catalogue.ts'
import { KINDS, periodsOf } from '../../src/privacy/kinds.ts'
import { filesOf } from './files.ts'

test('README’s table of what is kept is the page that homeowners read, with the periods that a business starts with', () => {
  const billing = { keepYears: 7 } as Parameters<typeof periodsOf>[0]['billing']
  const periods = periodsOf({ keeping: LONGEST, photos_months: 6, billing })
  const rows = KINDS.map(({ what, why, long, who }) => {
    const cells = [what, why, long, who].map(key => t('en', key, periods))
    return `| ${cells.join(' | ')} |`
  })
  const [readme] = filesOf('README.md')
  expect(readme!.text).toContain(
    ['| what | why | how long | who reads it |', '|---|---|---|---|', ...rows].join('\n'),
  )
})
