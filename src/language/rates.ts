export const en = {
  'rates.changed-meanwhile':
    'Somebody else saved the rates since you opened the page. What you typed is still here: compare it with the current rates, then save again.',
  'rates.draft-changed':
    'The draft has changed since you opened the page, perhaps by a second tap. It was saved, dropped, or put in force, and nothing more was done now.',
  'rates.draft-open': 'There is already a draft. Put it in force or drop it first.',
  'rates.priced-already':
    'Somebody already got a price range or a quote with this price, so it can’t be taken back. Give the right price instead.',
  'rates.day-has-come':
    'Its day has come: that version is in force and can’t be canceled anymore. A newer one can replace it.',
  'rates.newer-version':
    'A newer version of the rates was made since you opened the page. You now see what differs from that one: please look again.',
}

export const es: Record<keyof typeof en, string> = {
  'rates.changed-meanwhile':
    'Otra persona guardó las tarifas desde que abrió la página. Lo que escribió sigue aquí: compárelo con las tarifas actuales y guarde otra vez.',
  'rates.draft-changed':
    'El borrador cambió desde que abrió la página, quizá por un segundo toque. Se guardó, se descartó o entró en vigor, y ahora no se hizo nada más.',
  'rates.draft-open': 'Ya hay un borrador. Póngalo en vigor o descártelo primero.',
  'rates.priced-already':
    'Ya se dio un rango de precio o un presupuesto con este precio, así que no se puede retirar. Dé el precio correcto.',
  'rates.day-has-come':
    'Llegó su día: esa versión está en vigor y ya no se puede cancelar. Una más nueva puede reemplazarla.',
  'rates.newer-version':
    'Se hizo una versión más nueva de las tarifas desde que abrió la página. Ahora ve la diferencia con esa: mírela otra vez.',
}
