/** Of work that is moved to another day: mail, and the page on which a homeowner moves it. */
export const en = {
  'moves.subject': 'Your new day: {day}',
  'moves.mail':
    'The work for your request {number} is moved. This is when we’re coming now. If it doesn’t suit you, please tell us on your page.',
  'moves.rain-subject': 'Moved because of rain: {day}',
  'moves.rain':
    'We’re moving the work for your request {number} because of rain. This is when we’re coming now. If it doesn’t suit you, please tell us on your page.',
  'moves.canceled-by-us':
    'We’re sorry, we’ve had to cancel your request {number}. You don’t owe anything. If you have questions, please call us.',
  'moves.stage-canceled-by-us': 'We’re sorry, we’ve had to cancel this request.',
  'moves.link': 'Choose another day, or tell us this one doesn’t suit you',
  'moves.title': 'Your day',
  'moves.now': 'We’re booked to come on {day}.',
  'moves.lead': 'You can move it until {day}.',
  'moves.past': 'It’s too close to the day to move it here.',
  'moves.which': 'Which day is better?',
  'moves.none': 'None of these. Please call me about a day.',
  'moves.only-call': 'That day doesn’t suit me. Please call me.',
  'moves.words': 'Anything we should know?',
  'moves.save': 'Send',
  'moves.back': 'Leave it as it is',
  'moves.said': 'Your day is moved.',
  'moves.said-unsuited': 'Thank you for telling us. We’ll call you.',
  'moves.unsuited': 'You said this day doesn’t suit you. We’ll call you.',
  'moves.not-booked': 'This work isn’t booked now, so there’s no day to move.',
  'moves.other-day': 'The day has changed since you opened this page. Please look again.',
  'moves.too-late': 'It’s too close to the day to move it here. Please call us.',
  'moves.day-gone': 'That day has just filled up. Please choose another.',
  'moves.rain-clash': 'That day is too full for it now. Choose another day.',
  'moves.rain-changed': 'The jobs on this day have changed since you opened the page. Please look again.',
}

export const es: Record<keyof typeof en, string> = {
  'moves.subject': 'Su nuevo día: {day}',
  'moves.mail':
    'Cambiamos el día del trabajo de su solicitud {number}. Abajo verá cuándo iremos ahora. Si no le conviene, díganoslo en su página, por favor.',
  'moves.rain-subject': 'Cambio por la lluvia: {day}',
  'moves.rain':
    'Por la lluvia cambiamos el día del trabajo de su solicitud {number}. Abajo verá cuándo iremos ahora. Si no le conviene, díganoslo en su página, por favor.',
  'moves.canceled-by-us':
    'Lo sentimos, tuvimos que cancelar su solicitud {number}. No debe nada. Si tiene preguntas, llámenos, por favor.',
  'moves.stage-canceled-by-us': 'Lo sentimos, tuvimos que cancelar esta solicitud.',
  'moves.link': 'Elegir otro día, o decirnos que este no le conviene',
  'moves.title': 'Su día',
  'moves.now': 'Tenemos reservado ir el {day}.',
  'moves.lead': 'Puede cambiarlo hasta el {day}.',
  'moves.past': 'El día ya está muy cerca para cambiarlo aquí.',
  'moves.which': '¿Qué día le conviene más?',
  'moves.none': 'Ninguno de estos. Llámenme para buscar un día, por favor.',
  'moves.only-call': 'Ese día no me conviene. Llámenme, por favor.',
  'moves.words': '¿Algo que debamos saber?',
  'moves.save': 'Enviar',
  'moves.back': 'Dejarlo como está',
  'moves.said': 'Su día está cambiado.',
  'moves.said-unsuited': 'Gracias por avisarnos. Le llamaremos.',
  'moves.unsuited': 'Nos dijo que este día no le conviene. Le llamaremos.',
  'moves.not-booked': 'Este trabajo ya no está reservado: no hay un día que cambiar.',
  'moves.other-day': 'El día cambió desde que usted abrió esta página. Mírela otra vez, por favor.',
  'moves.too-late': 'El día ya está muy cerca para cambiarlo aquí. Llámenos, por favor.',
  'moves.day-gone': 'Ese día se acaba de llenar. Elija otro, por favor.',
  'moves.rain-clash': 'Ese día ya está demasiado ocupado. Elija otro.',
  'moves.rain-changed': 'Los trabajos de este día cambiaron desde que abrió la página. Mírela otra vez.',
}
