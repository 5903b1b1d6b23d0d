// Words that say that something is not there any more, in cells, comments, keys of colours and names of sheets. Common
// practice in each language, no published source; whoever calls asks a person.

/** Out of service, taken out, no longer valid. */
const GONE =
  "removed|deleted|void(ed)?|dead|decommissioned|de-?commissioned|decom(m?'?d)?|scrapped|abandoned|obsolete|superseded|stripped out|taken out|pulled out|withdrawn|disused|redundant|cancelled|canceled|no longer (there|in use|used|exists|fitted|connected|required)|entf(ä|ae)llt|entfallen|entfernt|ausgebaut|abgebaut|demontiert|stillgelegt|gel(ö|oe)scht|ung(ü|ue)ltig|au(ß|ss)er betrieb|supprim[ée]e?s?|d[ée]pos[ée]e?s?|retir[ée]e?s?|enlev[ée]e?s?|annul[ée]e?s?|hors service|eliminad[oa]s?|retirad[oa]s?|quitad[oa]s?|anulad[oa]s?|suprimid[oa]s?|removid[oa]s?|rimoss[oaie]|eliminat[oaie]|dismess[oaie]|tolt[oaie]|verwijderd|vervallen|buiten gebruik|uitgebouwd|borttagen|utg(å|a)tt|fjernet|udg(å|a)et|utg(å|a)tt|poistettu|usuni(ę|e)t[yae]|zlikwidowan[yae]|zru(š|s)en[oaý]?|удал(е|ё)н[оаы]?|демонтирован[оаы]?|снят[оаы]?";
const SAYS_GONE = new RegExp(`(?<![\\p{L}\\p{N}])(${GONE})(?![\\p{L}\\p{N}])`, 'iu');
/** `do not remove`, `never removed`, `to be removed`: it is there. */
const NOT_GONE = new RegExp(
  `(?<!\\p{L})(not|never|to be|will be|nicht|nie|ne pas|jamais|non|no|niet|nooit|inte|ikke|не)( (yet|be|to be|encore|ancora|noch|nog))? (${GONE})(?!\\p{L})`,
  'iu',
);

export function saysGone(text: string): boolean {
  return SAYS_GONE.test(text) && !NOT_GONE.test(text);
}

/** A sheet that is kept for the record: `OLD - superseded`, `Decommissioned`, `Cables (old)`, `Archiv 2019`. */
export function sheetSaysOld(name: string): boolean {
  return saysGone(name) || OLD.test(name);
}

const OLD =
  /(?<![\p{L}\p{N}])(old|outdated|archived?|history|previous|do not use|alt|veraltet|archiv|ancien(ne)?s?|obsol[èe]te|périmée?|viejo|antiguo|vecchi[oa]|oud|gammal|gammel)(?![\p{L}\p{N}])/iu;
