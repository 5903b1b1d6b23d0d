// Fixtures that the reader reads wrong without a word today, each with what goes wrong. May only get shorter: a fixture
// that is read right or asked about has to leave it. One to a line, sorted.
export const KNOWN_WRONG: Readonly<Record<string, string>> = {};
