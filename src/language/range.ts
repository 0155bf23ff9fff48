export const en = {
  'range.heading': 'Your price range',
  'range.heading-so-far': 'Your price range so far',
  'range.provisional': 'This is an estimate, with no obligation. You’ll get a firm price in writing.',
  'range.figure': '{low} to {high}',
  'range.likely': 'Most likely about {likely}.',
  'range.words': '{low} to {high}, most likely {likely}',
  'range.one': '{likely}',
  'range.promise':
    '{of} of 10 jobs like yours end up in this range. It’s for the beds you described, and no others.',
  'range.minimum': 'This is a small job, so it costs our minimum charge, {minimum}.',
  'range.holds': 'Included',
  'range.holds-beds': 'About {volume} of material for {area} of beds, delivered and spread',
  'range.holds-travel': 'Travel to {postcode}, {charge}',
  'range.leaves-out': 'Not included',
  'range.leaves-tax': 'Sales tax, where it applies',
  'range.tax': '{tax}, {rate}',
  'range.tax-certificate': 'Tax may be different for new beds, once you give us a certificate.',
  'range.leaves-travel': 'Travel, until you tell us where the beds are',
  'range.narrower-sizes': 'If you measure bed {bed} with a tape, the range will be about {low} to {high}.',
  'range.narrower-lying':
    'If you measure how deep the old mulch is in bed {bed}, the range will be about {low} to {high}.',
  'range.narrower-visit': 'A short visit will tell us more.',
  'range.cautions': 'Good to know',
  'range.source': 'Source: {source}',
  'range.beds-read': 'This is for {read} of your {all} beds. The others aren’t complete yet.',
}

export const es: Record<keyof typeof en, string> = {
  'range.heading': 'Su rango de precio',
  'range.heading-so-far': 'Su rango de precio hasta ahora',
  'range.provisional':
    'Es un cálculo aproximado y sin compromiso. Le daremos un precio definitivo por escrito.',
  'range.figure': 'De {low} a {high}',
  'range.likely': 'Lo más probable: unos {likely}.',
  'range.words': 'De {low} a {high}, lo más probable {likely}',
  'range.one': '{likely}',
  'range.promise':
    '{of} de cada 10 trabajos como el suyo terminan en este rango. Vale solo para las jardineras que describió.',
  'range.minimum': 'Es un trabajo pequeño, así que cuesta nuestro cargo mínimo, {minimum}.',
  'range.holds': 'Incluye',
  'range.holds-beds': 'Cerca de {volume} de material para {area} de jardineras, entregado y colocado',
  'range.holds-travel': 'Traslado a {postcode}, {charge}',
  'range.leaves-out': 'No incluye',
  'range.leaves-tax': 'El impuesto sobre las ventas, donde corresponda',
  'range.tax': '{tax}, {rate}',
  'range.tax-certificate':
    'El impuesto puede ser distinto para jardineras nuevas, cuando nos dé un certificado.',
  'range.leaves-travel': 'El traslado, hasta que nos diga dónde están las jardineras',
  'range.narrower-sizes': 'Si mide con cinta la jardinera {bed}, el rango será de unos {low} a {high}.',
  'range.narrower-lying':
    'Si mide el grosor del mantillo viejo de la jardinera {bed}, el rango será de unos {low} a {high}.',
  'range.narrower-visit': 'Una visita corta nos dirá más.',
  'range.cautions': 'Conviene saber',
  'range.source': 'Fuente: {source}',
  'range.beds-read': 'Esto es para {read} de sus {all} jardineras. Las demás aún no están completas.',
}
