export const en = {
  'rates.changed-meanwhile':
    'The rates were saved by somebody else in the meantime. What you typed is still here: compare it with the rates as they are now, then save it again.',
  'rates.draft-changed':
    'The draft is no longer as this page showed it: it was saved, dropped or put in force in the meantime, perhaps by a second tap. Nothing more was done now.',
  'rates.draft-open': 'A draft is open already. Put it in force or drop it first.',
  'rates.priced-already':
    'Somebody was given a range or a quote with this price already, so it can’t be taken back. Give the right price instead.',
  'rates.day-has-come':
    'Its day has come: that version is in force, and can’t be called off any more. A newer one can take its place.',
  'rates.newer-version':
    'A newer version of the rates was made in the meantime. What is different from that one is shown now: look again.',
}

export const es: Record<keyof typeof en, string> = {
  'rates.changed-meanwhile':
    'Otra persona guardó las tarifas mientras tanto. Lo que escribió sigue aquí: compárelo con las tarifas de ahora y guárdelo otra vez.',
  'rates.draft-changed':
    'El borrador ya no está como lo mostraba esta página: entretanto se guardó, se descartó o entró en vigor, quizá por un segundo toque. Ahora no se hizo nada más.',
  'rates.draft-open': 'Ya hay un borrador abierto. Póngalo en vigor o descártelo primero.',
  'rates.priced-already':
    'Ya se dio un rango o una cotización con este precio, así que no se puede retirar. Dé el precio correcto.',
  'rates.day-has-come':
    'Llegó su día: esa versión está en vigor y ya no se puede cancelar. Una más nueva puede ocupar su lugar.',
  'rates.newer-version':
    'Entretanto se hizo una versión más nueva de las tarifas. Ahora se muestra la diferencia con esa: mírela otra vez.',
}
