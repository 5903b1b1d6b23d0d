// Fixtures that the reader reads wrong without a word today, each with what goes wrong. May only get shorter: a fixture
// that is read right or asked about has to leave it. One to a line, sorted.
export const KNOWN_WRONG: Readonly<Record<string, string>> = {
  'a comment that says removed': 'the comment is not read: the cable is taken as there',
  'a sheet of cables taken out': 'the sheet Decommissioned is read like the others',
  'a superseded sheet beside the new one': 'the sheet OLD - superseded is read like the others',
  'fills with a key': 'the colour that the key calls removed is not read',
  kabellijst: 'vervallen is not read: the cable is taken as there',
  'origen y destino': 'retirado is not read: the cable is taken as there',
  'part of a cell struck through': 'IN 2 struck through in front of IN 7 becomes part of the name',
  'removed in the notes': 'what the notes say of it is not read: the cable is taken as there',
  'rows struck through': 'rows struck through are read like the others',
  'status words for gone': 'removed, void, dead and deleted are not read',
  'tenant et aboutissant': 'supprimé is not read: the cable is taken as there',
  'von nach mit bemerkung': 'entfällt is not read: the cable is taken as there',
};
