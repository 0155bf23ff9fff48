export const en = {
  'rates.draft-changed':
    'The draft is no longer as this page showed it: it was saved, dropped or put in force in the meantime. Nothing was done.',
  'rates.newer-version':
    'A newer version of the rates was made in the meantime. What is different from that one is shown now: look again.',
}

export const es: typeof en = {
  'rates.draft-changed':
    'El borrador ya no está como lo mostraba esta página: entretanto se guardó, se descartó o entró en vigor. No se hizo nada.',
  'rates.newer-version':
    'Entretanto se hizo una versión más nueva de las tarifas. Ahora se muestra la diferencia con esa: mírela otra vez.',
}
