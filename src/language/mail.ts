export const en = {
  'mail.hello': 'Hello {name},',
  'mail.received-subject': 'We have your request {number}',
  'mail.received':
    'thank you. We have your request {number} for the beds at {street}, and you will hear from us within {days} working days.',
  'mail.received-one':
    'thank you. We have your request {number} for the beds at {street}, and you will hear from us by the next working day.',
  'mail.received-range':
    'For the beds as you described them the work will probably cost {low} to {high}. That is a provisional range; the firm price follows when we know the beds.',
  'mail.own-page': 'See what you sent, change your phone number, add a note, or call it off',
  'mail.visit-subject': 'We come to measure: {when}',
  'mail.visit':
    'we come to {street} to measure the beds for your request {number}. If the time does not suit you, please ring us, or leave a note on your page.',
  'mail.visit-when': 'When',
  'mail.quote-subject': 'Your firm price for request {number}',
  'mail.quote': 'here is the firm price for the beds at {street}.',
  'mail.quote-again':
    'here is a new firm price for the beds at {street}. It takes the place of the one before it.',
  'mail.quote-total': 'Price',
  'mail.quote-holds': 'Holds until',
  'mail.quote-link': 'Read what it includes, accept it, and choose a work day',
  'mail.booked-subject': 'Booked: {day}',
  'mail.booked': 'thank you for accepting. This is when we come to {street} to dress the beds.',
  'mail.booked-day': 'Work day',
  'mail.booked-days': 'Work days',
}

export const es: Record<keyof typeof en, string> = {
  'mail.hello': 'Hola, {name}:',
  'mail.received-subject': 'Tenemos su solicitud {number}',
  'mail.received':
    'gracias. Tenemos su solicitud {number} para los macizos de {street}, y le responderemos en un plazo de {days} días laborables.',
  'mail.received-one':
    'gracias. Tenemos su solicitud {number} para los macizos de {street}, y le responderemos a más tardar el próximo día laborable.',
  'mail.received-range':
    'Para los macizos tal como los describió, el trabajo costará probablemente de {low} a {high}. Es un margen provisional; el precio firme llega cuando conozcamos los macizos.',
  'mail.own-page': 'Vea lo que envió, cambie su teléfono, añada una nota o anúlelo',
  'mail.visit-subject': 'Vamos a medir: {when}',
  'mail.visit':
    'vamos a {street} a medir los macizos de su solicitud {number}. Si la hora no le conviene, llámenos o deje una nota en su página.',
  'mail.visit-when': 'Cuándo',
  'mail.quote-subject': 'Su precio firme para la solicitud {number}',
  'mail.quote': 'este es el precio firme para los macizos de {street}.',
  'mail.quote-again': 'este es un nuevo precio firme para los macizos de {street}. Sustituye al anterior.',
  'mail.quote-total': 'Precio',
  'mail.quote-holds': 'Vale hasta',
  'mail.quote-link': 'Lea lo que incluye, acéptelo y elija un día de trabajo',
  'mail.booked-subject': 'Reservado: {day}',
  'mail.booked': 'gracias por aceptar. Estos son los días en que vamos a {street} a cubrir los macizos.',
  'mail.booked-day': 'Día de trabajo',
  'mail.booked-days': 'Días de trabajo',
}
