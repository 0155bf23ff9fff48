/** Of a day that homeowners ask for, which the business then confirms: pages and mail. */
export const en = {
  'asked.which': 'Which day would you like?',
  'asked.hint':
    'We have time for your beds on these days. We’ll hold yours for two days while we confirm it.',
  'asked.hint-days':
    'Your beds take {count} work days in a row. Choose the first one. We’ll hold them for two days while we confirm them.',
  'asked.ask': 'Ask for this day',
  'asked.accept': 'Accept and ask for a day',
  'asked.said': 'We’re holding that day for you. We’ll confirm it within two days.',
  'asked.said-accepted': 'Accepted. We’re holding that day for you and will confirm it within two days.',
  'asked.check-day': 'Day you’re asking for',
  'asked.check-days': 'Days you’re asking for',
  'asked.title': 'You asked for a day',
  'asked.stands': 'You asked for {day}. We’re holding it for you until {until}.',
  'asked.stands-next': 'We’ll confirm it by then, or suggest another day.',
  'asked.change': 'Need a different day? Call us:',
  'asked.offered': 'The day we suggested. It’s booked as soon as you choose it.',
  'asked.declined-now': 'We’re sorry, we can’t come on {day}.',
  'asked.ended-now': 'We didn’t confirm {day} in time, so it isn’t held for you anymore. We’re sorry.',
  'asked.no-move': 'To move it, call us or tell us here that it doesn’t suit you.',
  'asked.waits': 'You’ve already asked for a day. To change it, please call us.',
  'asked.gone': 'That day isn’t asked for anymore. Please look again.',
  'asked.subject': 'You asked for {day}',
  'asked.mail':
    'We’re holding this day for your request {number}. We’ll confirm it within two days, or suggest another one.',
  'asked.until': 'Held until',
  'asked.declined-subject': 'Another day for your request {number}',
  'asked.declined':
    'We’re sorry, we can’t come on the day you asked for. Please choose another one for your request {number}.',
  'asked.suggests': 'We suggest',
  'asked.ended-subject': 'Please choose a day again, {number}',
  'asked.ended':
    'We’re sorry, we didn’t confirm the day you asked for in time, so it isn’t held for you anymore. Please choose one again, or call us.',
}

export const es: Record<keyof typeof en, string> = {
  'asked.which': '¿Qué día le gustaría?',
  'asked.hint':
    'Estos días tenemos tiempo para sus jardineras. Le guardamos el suyo dos días mientras lo confirmamos.',
  'asked.hint-days':
    'Sus jardineras llevan {count} días de trabajo seguidos. Elija el primero. Se los guardamos dos días mientras los confirmamos.',
  'asked.ask': 'Pedir este día',
  'asked.accept': 'Aceptar y pedir un día',
  'asked.said': 'Le guardamos ese día. Se lo confirmaremos en menos de dos días.',
  'asked.said-accepted': 'Aceptado. Le guardamos ese día y se lo confirmaremos en menos de dos días.',
  'asked.check-day': 'Día que pide',
  'asked.check-days': 'Días que pide',
  'asked.title': 'Usted pidió un día',
  'asked.stands': 'Usted pidió el {day}. Se lo guardamos hasta el {until}.',
  'asked.stands-next': 'Para entonces se lo confirmaremos o le propondremos otro día.',
  'asked.change': '¿Necesita otro día? Llámenos:',
  'asked.offered': 'El día que le propusimos. Queda reservado en cuanto lo elija.',
  'asked.declined-now': 'Lo sentimos, no podemos ir el {day}.',
  'asked.ended-now': 'No confirmamos a tiempo el {day}, así que ya no se lo guardamos. Lo sentimos.',
  'asked.no-move': 'Para cambiarlo, llámenos o díganos aquí que no le conviene.',
  'asked.waits': 'Ya pidió un día. Para cambiarlo, llámenos, por favor.',
  'asked.gone': 'Ya no hay un día pedido así. Mírelo otra vez, por favor.',
  'asked.subject': 'Usted pidió el {day}',
  'asked.mail':
    'Guardamos este día para su solicitud {number}. En menos de dos días se lo confirmaremos o le propondremos otro.',
  'asked.until': 'Guardado hasta',
  'asked.declined-subject': 'Otro día para su solicitud {number}',
  'asked.declined':
    'Lo sentimos, no podemos ir el día que pidió. Elija otro para su solicitud {number}, por favor.',
  'asked.suggests': 'Le proponemos',
  'asked.ended-subject': 'Elija un día otra vez, {number}',
  'asked.ended':
    'Lo sentimos, no confirmamos a tiempo el día que pidió y ya no se lo guardamos. Elija uno otra vez o llámenos, por favor.',
}
