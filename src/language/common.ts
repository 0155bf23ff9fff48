export const en = {
  'common.skip': 'Skip to the main part',
  'common.optional': '(optional)',
  'common.staff-sign-in': 'Staff sign-in',
  'common.other-language': 'Español',
  'common.demo': 'This is a demonstration: the business, the people and the prices are invented.',
  'common.error-prefix': 'Error: ',
  'common.errors-heading': 'Please look at this again',
}

export const es: Record<keyof typeof en, string> = {
  'common.skip': 'Ir a la parte principal',
  'common.optional': '(opcional)',
  'common.staff-sign-in': 'Entrada del personal',
  'common.other-language': 'English',
  'common.demo': 'Esto es una demostración: la empresa, las personas y los precios son inventados.',
  'common.error-prefix': 'Error: ',
  'common.errors-heading': 'Por favor, revise esto',
}
