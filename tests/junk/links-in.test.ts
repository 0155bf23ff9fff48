import { expect, test } from 'vitest'
import { countLinks, sitesIn } from '../../src/junk/links-in.ts'

test.each([
  [
    'Cheap SEO for your site, see bit.ly/3xA and bit.ly/3xB and goo.gl/abc and is.gd/foo',
    4,
    ['bit.ly', 'goo.gl', 'is.gd'],
  ],
  [
    'seo-boost.pro/x seo-boost.win/y seo-boost.de/z t.co/q cheap.co.uk/a',
    5,
    ['seo-boost.pro', 'seo-boost.win', 'seo-boost.de', 't.co', 'cheap.co.uk'],
  ],
  [
    'the best: pills.pharmacy/buy, cheap.agency/now?x=1 (or casino.vegas/z)',
    3,
    ['pills.pharmacy', 'cheap.agency', 'casino.vegas'],
  ],
  ['BIT.LY/3XA', 1, ['bit.ly']],
  ['write t.me/cheapseo or wa.me/15125550142', 2, ['t.me', 'wa.me']],
  ['jardinería.com.mx y cheap.co.uk', 2, ['jardinería.com.mx', 'cheap.co.uk']],
  ['Rules are at oakhillhoa.org. And OakHill.Com', 2, ['oakhillhoa.org', 'oakhill.com']],
  ['https://bit.ly/3xA?b=c.de/f www.shop.example/a', 2, ['bit.ly', 'shop.example']],
])('%j has its links', (text, count, sites) => {
  expect(countLinks(text)).toBe(count)
  expect(sitesIn(text)).toEqual(sites)
})

test.each([
  'Gate is 6/8 wide, beds and/or walkway, w/o fabric, dog n/a',
  'About 3 cu.yd/bed, or cu.ft/bag; 12 sq.ft/bag, 10 sq.in/plug, 2.5 ft/side, 4.5in/6.5in deep',
  'Last year we paid 38.50/yd, then $45.00/yard delivered, 3.yd/ft',
  'Corner of Oak St./Elm Ave., or Oak St./Main, Apt.B/2, Main.St/Oak.Ave',
  'Use the gate.side/back is fine. Need mulch.Please/thanks',
  'mulch.please/thanks, brown.or/black, mulch.red/brown, mulch.black/brown, stone.rocks/gravel',
  'Come mon.am/tue.pm, 9.am/5.pm, 8 a.m./5 p.m., or come.today/tomorrow',
  'Please call.text/email works. My cell.call/text me. Watch the gate.dog/cat inside',
  'The gate.in/out sticks; my husband.me/him will be home. Beds are done.no/low dye please',
  'The gate sticks.Me and my wife are home. Close the gate.Live at the end. It is steep.Top bed first',
  'I need.It/they told me. Front.Us/them. Yard.My/our beds',
  'Mr./Mrs. Reyes, Jr./Sr., e.g./i.e., approx./about',
  'Mi esposa.me/la llaman. El patio.es/era grande. Gracias.si/no llueve. Perro.no/sí muerde',
  'Sr./Sra. Reyes, el jardín.la/el de atrás, c/u, y/o, s/n, km.2/3, 3.5 m/lado, tel.no/cel',
  'Llame al Sr.Pérez/Sra.Pérez. Mantillo rojo.y/o negro. Portón.al/a la izquierda',
  'pat.jones@example.com, o a maria.reyes@correo.example.mx/trabajo, pat@cheap.co.uk',
  'Two yards of mulch...and/or bark.../stone. Thanks!/Gracias!',
])('%j is without a link', text => {
  expect(sitesIn(text)).toEqual([])
  expect(countLinks(text)).toBe(0)
})

test('a long text of dots and hyphens is read at once', () => {
  const started = performance.now()
  countLinks(`${'a.'.repeat(20_000)} ${'a-'.repeat(20_000)} ${'a.de'.repeat(10_000)}/`)
  expect(performance.now() - started).toBeLessThan(1000)
})
