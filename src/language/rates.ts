export const en = {
  'rates.changed-meanwhile':
    'The rates changed after you opened the page. What you typed is still here. Compare it with the current rates, then save again.',
  'rates.draft-changed':
    'The draft changed after you opened the page: it was saved, dropped, or put in force. Nothing else was saved.',
  'rates.draft-open': 'There’s already a draft. Put it in force or drop it first.',
  'rates.priced-already':
    'A price range or a quote already uses this price, so you can’t take it back. Enter the right price instead.',
  'rates.day-has-come':
    'That version is already in force, so you can’t cancel it. A newer one can replace it.',
  'rates.newer-version':
    'A newer version of the rates was made after you opened the page. You now see how yours differs from it. Please look again.',
}

export const es: Record<keyof typeof en, string> = {
  'rates.changed-meanwhile':
    'Las tarifas cambiaron después de que usted abrió la página. Lo que escribió sigue aquí. Compárelo con las tarifas actuales y guarde otra vez.',
  'rates.draft-changed':
    'El borrador cambió después de que usted abrió la página: se guardó, se descartó o entró en vigor. No se guardó nada más.',
  'rates.draft-open': 'Ya hay un borrador. Póngalo en vigor o descártelo primero.',
  'rates.priced-already':
    'Un rango de precio o un presupuesto ya usa este precio, así que no se puede retirar. Escriba el precio correcto.',
  'rates.day-has-come':
    'Esa versión ya está en vigor, así que no se puede cancelar. Una más nueva puede reemplazarla.',
  'rates.newer-version':
    'Se hizo una versión más nueva de las tarifas después de que usted abrió la página. Ahora ve la diferencia con ella. Revísela otra vez.',
}
