/** What the clock has us write: the day before, and of a price that waits. */
export const en = {
  'remind.visit-subject': 'Reminder: we’re coming to measure {when}',
  'remind.visit':
    'We’ll be at {street} to measure the beds for your request {number}. If that time no longer works, please call us.',
  'remind.visit-no-place':
    'We’re coming to measure the beds for your request {number}. If that time no longer works, please call us.',
  'remind.work-subject': 'Reminder: we’re coming {day}',
  'remind.work':
    'We’ll be at {street} to mulch the beds. Please unlock the gate, keep pets inside, and leave room for the truck.',
  'remind.work-no-place':
    'We’re coming to mulch the beds of your request {number}. Please unlock the gate, keep pets inside, and leave room for the truck.',
  'remind.follow-up-subject': 'Any questions about your price? Request {number}',
  'remind.follow-up':
    'We sent you a firm price for your request {number} and haven’t heard from you. If anything is unclear, please call us. If you’d rather not do it, you can tell us behind the link.',
  'remind.expiring-subject': 'Your price is good through {day}',
  'remind.expiring':
    'Your firm price for request {number} is good through {day}. After that we’d have to price it again.',
  'remind.accepted-subject': 'Thank you for accepting: request {number}',
  'remind.accepted':
    'Thank you for accepting the price for your request {number}. You can choose a day behind the link, or we’ll call you about one.',
  'remind.choose-day': 'Choose a day',
}

export const es: Record<keyof typeof en, string> = {
  'remind.visit-subject': 'Recordatorio: iremos a medir {when}',
  'remind.visit':
    'Iremos a {street} a medir las jardineras de su solicitud {number}. Si la hora ya no le conviene, llámenos, por favor.',
  'remind.visit-no-place':
    'Iremos a medir las jardineras de su solicitud {number}. Si la hora ya no le conviene, llámenos, por favor.',
  'remind.work-subject': 'Recordatorio: iremos el {day}',
  'remind.work':
    'Iremos a {street} a trabajar en las jardineras. Deje abierta la reja, tenga a sus mascotas adentro y deje espacio para el camión, por favor.',
  'remind.work-no-place':
    'Iremos a trabajar en las jardineras de su solicitud {number}. Deje abierta la reja, tenga a sus mascotas adentro y deje espacio para el camión, por favor.',
  'remind.follow-up-subject': '¿Tiene preguntas sobre su precio? Solicitud {number}',
  'remind.follow-up':
    'Le enviamos un precio definitivo para su solicitud {number} y no hemos sabido de usted. Si algo no está claro, llámenos, por favor. Si prefiere no hacerlo, puede decírnoslo en el enlace.',
  'remind.expiring-subject': 'Su precio vale hasta el {day}',
  'remind.expiring':
    'Su precio definitivo para la solicitud {number} vale hasta el {day}. Después tendríamos que calcularlo otra vez.',
  'remind.accepted-subject': 'Gracias por aceptar: solicitud {number}',
  'remind.accepted':
    'Gracias por aceptar el precio de su solicitud {number}. Puede elegir un día en el enlace, o le llamaremos para acordarlo.',
  'remind.choose-day': 'Elija un día',
}
