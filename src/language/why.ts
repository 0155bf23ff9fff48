export const en = {
  'why.saw': 'You saw {low} to {high}.',
  'why.saw-one': 'You saw {low}.',
  'why.measured': 'Bed {n} measured {now} instead of {before}.',
  'why.gets': 'Bed {n} gets {now} instead of {before}.',
  'why.needs': 'Bed {n} needs {now} of material instead of {before}.',
  'why.gone': 'Bed {n} isn’t part of this price.',
  'why.found': 'We found one more bed: {now}.',
  'why.found-several': 'We found {count} more beds: {now} together.',
  'why.more': '{count} more beds changed too.',
  'why.added': 'Added: {what}.',
  'why.rates': 'Our prices have changed since then.',
}

export const es: Record<keyof typeof en, string> = {
  'why.saw': 'Usted vio de {low} a {high}.',
  'why.saw-one': 'Usted vio {low}.',
  'why.measured': 'La jardinera {n} midió {now} en vez de {before}.',
  'why.gets': 'La jardinera {n} lleva {now} en vez de {before}.',
  'why.needs': 'La jardinera {n} necesita {now} de material en vez de {before}.',
  'why.gone': 'La jardinera {n} no está en este precio.',
  'why.found': 'Encontramos una jardinera más: {now}.',
  'why.found-several': 'Encontramos {count} jardineras más: {now} en total.',
  'why.more': 'También cambiaron {count} jardineras más.',
  'why.added': 'Se agregó: {what}.',
  'why.rates': 'Nuestros precios cambiaron desde entonces.',
}
