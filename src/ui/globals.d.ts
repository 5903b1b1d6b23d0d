// Set by the build: version and build id, for the person who asks which one runs.
declare const __ASFOUND_VERSION__: string;
