export const en = {
  'common.skip': 'Skip to content',
  'common.optional': '(optional)',
  'common.staff-sign-in': 'Staff sign-in',
  'common.other-language': 'Español',
  'common.demo': 'This is a demo: the business, the people, and the prices are made up.',
  'common.error-prefix': 'Error: ',
  'common.errors-heading': 'Please take another look',
}

export const es: Record<keyof typeof en, string> = {
  'common.skip': 'Ir al contenido',
  'common.optional': '(opcional)',
  'common.staff-sign-in': 'Acceso del personal',
  'common.other-language': 'English',
  'common.demo': 'Esto es una demostración: la empresa, las personas y los precios son inventados.',
  'common.error-prefix': 'Error: ',
  'common.errors-heading': 'Por favor, revise esto',
}
