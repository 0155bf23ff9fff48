export const en = {
  'mail.hello': 'Hello {name},',
  'mail.hello-nobody': 'Hello,',
  'mail.received-subject': 'We have your request {number}',
  'mail.received':
    'thank you. We have your request {number}, and you will hear from us within {days} working days.',
  'mail.received-one':
    'thank you. We have your request {number}, and you will hear from us by the next working day.',
  'mail.received-range':
    'For the beds as you described them the work will probably cost {low} to {high}. That is a provisional range; the firm price follows when we know the beds.',
  'mail.confirm-why':
    'We do not know yet whether this is the right email address. Please open the link and say that it is: then we mail you what you sent, and the link to its page.',
  'mail.confirm-not-mine':
    'If you did not send us anything, you need not do anything: somebody has typed your address, and nothing that was typed is mailed to you.',
  'mail.confirm': 'Say that this is your email address, and see your request',
  'mail.receipt-subject': 'What you sent: request {number}',
  'mail.receipt':
    'thank you for confirming your email address. This is what you sent us as request {number}.',
  'mail.own-page': 'See what you sent, change your phone number, add a note, or call it off',
  'mail.visit-subject': 'We come to measure: {when}',
  'mail.visit':
    'we come to {street} to measure the beds for your request {number}. If the time does not suit you, please ring us, or leave a note on your page.',
  'mail.visit-no-place':
    'we come to measure the beds for your request {number}. If the time does not suit you, please ring us, or leave a note on your page.',
  'mail.visit-when': 'When',
  'mail.quote-subject': 'Your firm price for request {number}',
  'mail.quote': 'here is the firm price for the beds at {street}.',
  'mail.quote-no-place': 'here is the firm price for your request {number}.',
  'mail.quote-again':
    'here is a new firm price for the beds at {street}. It takes the place of the one before it.',
  'mail.quote-again-no-place':
    'here is a new firm price for your request {number}. It takes the place of the one before it.',
  'mail.quote-total': 'Price',
  'mail.quote-holds': 'Holds until',
  'mail.quote-link': 'Read what it includes, accept it, and choose a work day',
  'mail.booked-subject': 'Booked: {day}',
  'mail.booked': 'thank you for accepting. This is when we come to {street} to dress the beds.',
  'mail.booked-no-place':
    'thank you for accepting. This is when we come to dress the beds of your request {number}.',
  'mail.booked-day': 'Work day',
  'mail.booked-days': 'Work days',
}

export const es: Record<keyof typeof en, string> = {
  'mail.hello': 'Hola, {name}:',
  'mail.hello-nobody': 'Hola:',
  'mail.received-subject': 'Tenemos su solicitud {number}',
  'mail.received':
    'gracias. Tenemos su solicitud {number}, y le responderemos en un plazo de {days} días laborables.',
  'mail.received-one':
    'gracias. Tenemos su solicitud {number}, y le responderemos a más tardar el próximo día laborable.',
  'mail.received-range':
    'Para los macizos tal como los describió, el trabajo costará probablemente de {low} a {high}. Es un margen provisional; el precio firme llega cuando conozcamos los macizos.',
  'mail.confirm-why':
    'Todavía no sabemos si esta es la dirección de correo correcta. Abra el enlace y díganos que lo es, por favor: entonces le enviamos lo que mandó y el enlace a su página.',
  'mail.confirm-not-mine':
    'Si usted no nos envió nada, no tiene que hacer nada: alguien escribió su dirección, y nada de lo escrito se le envía.',
  'mail.confirm': 'Diga que esta es su dirección de correo, y vea su solicitud',
  'mail.receipt-subject': 'Lo que envió: solicitud {number}',
  'mail.receipt':
    'gracias por confirmar su dirección de correo. Esto es lo que nos envió como solicitud {number}.',
  'mail.own-page': 'Vea lo que envió, cambie su teléfono, añada una nota o anúlelo',
  'mail.visit-subject': 'Vamos a medir: {when}',
  'mail.visit':
    'vamos a {street} a medir los macizos de su solicitud {number}. Si la hora no le conviene, llámenos o deje una nota en su página.',
  'mail.visit-no-place':
    'vamos a medir los macizos de su solicitud {number}. Si la hora no le conviene, llámenos o deje una nota en su página.',
  'mail.visit-when': 'Cuándo',
  'mail.quote-subject': 'Su precio firme para la solicitud {number}',
  'mail.quote': 'este es el precio firme para los macizos de {street}.',
  'mail.quote-no-place': 'este es el precio firme para su solicitud {number}.',
  'mail.quote-again': 'este es un nuevo precio firme para los macizos de {street}. Sustituye al anterior.',
  'mail.quote-again-no-place':
    'este es un nuevo precio firme para su solicitud {number}. Sustituye al anterior.',
  'mail.quote-total': 'Precio',
  'mail.quote-holds': 'Vale hasta',
  'mail.quote-link': 'Lea lo que incluye, acéptelo y elija un día de trabajo',
  'mail.booked-subject': 'Reservado: {day}',
  'mail.booked': 'gracias por aceptar. Estos son los días en que vamos a {street} a cubrir los macizos.',
  'mail.booked-no-place':
    'gracias por aceptar. Estos son los días en que vamos a cubrir los macizos de su solicitud {number}.',
  'mail.booked-day': 'Día de trabajo',
  'mail.booked-days': 'Días de trabajo',
}
