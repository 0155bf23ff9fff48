export const en = {
  'ways.choice': 'How would you like to start?',
  'ways.beds': 'Measure it myself',
  'ways.photos': 'Photos only',
  'ways.last-year': 'Same as last year',
  'ways.look': 'Just come and look',
  'ways.photos-heading': 'Send us photos of the beds',
  'ways.photos-lead':
    'Tell us how to reach you and add your photos at the end. We’ll price it after we’ve seen the beds.',
  'ways.last-year-heading': 'Same as last year',
  'ways.last-year-lead':
    'Tell us your name, phone, and address as you gave them last year. We’ll look up last year’s beds and get back to you with a price.',
  'ways.look-heading': 'We’ll come and look',
  'ways.look-lead': 'Tell us how to reach you. We’ll set up a visit and price it after we’ve seen the beds.',
  'ways.sent-photos': 'Photos, without measurements. We’ll price it after we’ve seen the beds.',
  'ways.sent-last-year': 'The same as last year. We’ll look up last year’s beds and price them.',
  'ways.sent-look': 'A visit, without measurements. We’ll price it after we’ve seen the beds.',
}

export const es: Record<keyof typeof en, string> = {
  'ways.choice': '¿Cómo quiere empezar?',
  'ways.beds': 'Yo mido',
  'ways.photos': 'Solo fotos',
  'ways.last-year': 'Igual que el año pasado',
  'ways.look': 'Solo vengan a ver',
  'ways.photos-heading': 'Envíenos fotos de las jardineras',
  'ways.photos-lead':
    'Díganos cómo comunicarnos con usted y agregue las fotos al final. Le daremos un precio después de ver las jardineras.',
  'ways.last-year-heading': 'Igual que el año pasado',
  'ways.last-year-lead':
    'Díganos su nombre, teléfono y dirección como nos los dio el año pasado. Buscaremos las jardineras del año pasado y le daremos un precio.',
  'ways.look-heading': 'Vamos a ver',
  'ways.look-lead':
    'Díganos cómo comunicarnos con usted. Acordaremos una visita y le daremos un precio después de ver las jardineras.',
  'ways.sent-photos': 'Fotos, sin medidas. Le daremos un precio después de ver las jardineras.',
  'ways.sent-last-year':
    'Igual que el año pasado. Buscaremos las jardineras del año pasado y le daremos un precio.',
  'ways.sent-look': 'Una visita, sin medidas. Le daremos un precio después de ver las jardineras.',
}
