// The words of titles, by what they mean: English, German, French and Spanish as stations write them. Common practice, no
// published source. Which of several meanings a title has is settled in columns.ts.

export const SIDES: readonly ['from' | 'to', RegExp][] = [
  [
    'from',
    /^(from|source|src|origin|a end|near end|near|end a|side a|von|van|de|da|desde|depuis|depart|quelle|origine|origen|tenant|local|ursprung)\b|\b(a|a end|near end|from|quelle|source|origine|origen|tenant|local)$/,
  ],
  [
    'to',
    /^(to|dest|destination|dst|b end|z end|far end|far|end b|end z|side b|side z|nach|naar|zu|vers|hasta|para|arrivee|ziel|destino|aboutissant|remote)\b|\b(b|z|b end|z end|far end|to|ziel|dest|destination|destino|aboutissant|remote)$/,
  ],
];

export const SIDE_PARTS: readonly [string, RegExp][] = [
  ['Location', /^(loc|location|place|ort|lieu|standort|emplacement|ubicacion|lugar)$/],
  ['Room', /^(room|studio|raum|salle|area|sala)$/],
  ['Rack', /^(rack|rack no|bay|cabinet|baie|schrank|gestell|armoire|armario|bastidor)$/],
  ['U', /^(u|ru|he|ue|rack unit|position u|u pos|u position|slot)$/],
  [
    'Unit',
    /^(unit|equip|equipment|equipment id|dev|device|gear|box|panel|block|item|gerat|appareil|equipement|equipo|materiel|dispositivo|einheit)$/,
  ],
  [
    'Jack',
    /^(jack|port|pin|terminal|position|pos|output|input|out|in|channel|socket|outlet|buchse|anschlu(ss|ß)|klemme|prise|borne|puerto|toma|ausgang|eingang|sortie|entree|salida|entrada|saida|uscita|ingresso|uitgang|ingang|prt|jack no|port no|termination)$/,
  ],
  ['Row', /^(row|block row)$/],
  ['Pair', /^(pair|pr|pair no)$/],
  ['Connector', /^(connector|plug|gender|connector type|plug type|stecker|connecteur|fiche|conector)$/],
  ['Conn', /^(conn|term)$/],
];

/** Jacks that are called after their direction: of the unit that sends, and of the one that receives. */
export const OUT_TITLE = /^(out|output|ausgang|sortie|salida|saida|uscita|uitgang)$/;
export const IN_TITLE = /^(in|input|eingang|entree|entrada|ingresso|ingang)$/;

export const NUMBER_TITLE =
  /^((cable|cbl|wire|run|line|tag|circuit|ref|reference|kabel|label)? ?(no|id|nr|num|number|nummer|numero|tag)|cn|cable label|(no|num|numero)( de| du)? (cable|kabel)|cablenumber|kabelnr|kabelnummer|kabelbezeichnung|repere( cable| de cable| du cable)?)$/;

/** Words of whole headers. The first list that holds the word wins; some mean another thing when the first is taken. */
export const CABLE_WORDS: readonly [string, RegExp][] = [
  ['number', NUMBER_TITLE],
  [
    'signal',
    /^(signal|sig|signal type|signalart|type( de)? signal|senal|sinal|segnale|signaal|soort signaal|tipo de (senal|sinal)|function|service|format|level|class|signal class)$/,
  ],
  ['circuit', /^(circuit name|signal name|service name|description|circuit|name|circuit description|path)$/],
  [
    'cableType',
    /^(type jkt|cable type|wire type|type|spec|jacket|cat|part no|p n|kabeltyp|typ|type cable|type de cable|type jacket|cable spec|kabelart|tipo|tipo de cable)$/,
  ],
  ['colour', /^(colou?r|jkt|boot|farbe|couleur|jacket colou?r|pair colou?r|kabelfarbe)$/],
  [
    'length',
    /^((len|length|l|lange|laenge|longueur|longitud|lengte|lunghezza|comprimento|long|lg|cut length|cut)( (m|ft|feet|metres|meters|in m|in ft))?|ft|feet|metres|meters)$/,
  ],
  ['leg', /^(l r|leg|side|ch|pair)$/],
  ['status', /^(stat|status|installed|pulled|state|etat|statut|zustand|estado)$/],
  ['onAir', /^(on air|on air y n|critical)$/],
  [
    'notes',
    /^(notes?|remarks?|comments?|misc|bemerkung(en)?|anmerkung(en)?|hinweise?|remarques?|commentaires?|observations?|notas?|note|opmerking(en)?|observacion(es)?|obs)$/,
  ],
  ['via', /^(via|route|tray|conduit|trunk|panel|multicore|multicore pair)$/],
  ['phantom', /^(phantom|\+48|\+48 ?v|48v|p48)$/],
  ['gain', /^(gain|mic gain|gain db)$/],
  ['microphone', /^(mic|microphone|mic type|microphone type)$/],
  ['name', /^(source name|channel name|long name)$/],
  ['channel', /^(channel no|channel number|channel|stream no)$/],
];
/** Headers that name the number only where no better column does. */
export const NUMBER_FALLBACK = /^(cable|wire|tag|run|ref|line|label|circuit|cbl|kabel|cavo|cabo|lead|cord|cordon)$/;

export const UNIT_WORDS: readonly [string, RegExp][] = [
  [
    'unit',
    /^(unit|unit name|unit id|unit label|equip|equipment|equipment id|device|device id|item|gear|tag|label|name)$/,
  ],
  ['room', /^(room|studio|location|loc|raum|salle)$/],
  ['rack', /^(rack|rack id|rack no|bay|cabinet|baie)$/],
  ['uTop', /^(u top|top u|highest u|ru top|top ru)$/],
  ['u', /^(u|ru|u pos|u position|position|u bottom|bottom u|lowest u|slot|pos)$/],
  ['height', /^(height|height u|size|size u|hu|units|u height|rack units)$/],
  ['mounted', /^(mounted|face|mounting|side|front rear|mounted on)$/],
  ['jacks', /^(jacks|ports|jack list|connections)$/],
  ['layout', /^(layout|jack layout|arrangement)$/],
  ['jackFace', /^(jack face|jacks on|jacks face|port face|jacks at)$/],
  ['description', /^(description|function|description function|role|type|what|beschreibung)$/],
  ['maker', /^(maker|make|manufacturer|vendor|brand|mfr|mfg)$/],
  ['model', /^(model|model no|make model|maker model)$/],
  ['address', /^(address|ip|ip address|addr|host address|adresse)$/],
  ['serial', /^(serial|serial no|serial number|s n|sn)$/],
  ['mac', /^(mac|mac address|hardware address|hw address|ethernet address)$/],
  ['mask', /^(mask|subnet mask|netmask|prefix)$/],
  ['gateway', /^(gateway|gw|default gateway|router)$/],
  ['host', /^(host name|hostname|host|dns name)$/],
  ['firmware', /^(firmware|fw|version|software version|firmware version)$/],
  ['notes', /^(notes?|remarks?|comments?|misc)$/],
];

export const JACK_WORDS: readonly [string, RegExp][] = [
  [
    'unit',
    /^(unit|unit name|panel|block|block id|panel device|panel unit|equip|equipment|device|source device|frame)$/,
  ],
  ['room', /^(room|studio|location|loc|rack)$/],
  ['jack', /^(jack|jack no|jack label|port|port no|physical jack|position|terminal)$/],
  ['input', /^(input|output|input no|output no|in no|out no)$/],
  ['legend', /^(legend|printed legend)$/],
  ['row', /^(row|row col|block row)$/],
  ['pair', /^(pair|pair no|pr)$/],
  ['tip', /^(tip|tip colou?r|a wire)$/],
  ['ring', /^(ring|ring colou?r|b wire)$/],
  ['cable', /^(cable|cable no|rear cable|cable id)$/],
  ['connector', /^(connector|conn|plug|type|gender|connector type|type gender)$/],
  ['direction', /^(direction|dir|in out|i o)$/],
  ['signal', /^(signal|signal class|class|function)$/],
  ['leg', /^(leg|l r|channel l r|ch)$/],
  ['spare', /^(spare|spare ?)$/],
  ['mult', /^(mult|multiple)$/],
  ['normalled', /^(normalled to|normal to|normals to|normalled)$/],
  ['normal', /^(normal|normal kind|normalling|norm)$/],
  ['phantom', /^(phantom|\+48|\+48 ?v|48v|p48)$/],
  ['gain', /^(gain|mic gain|gain db)$/],
  ['microphone', /^(mic|microphone|mic type|microphone type)$/],
  ['name', /^(source name|name|channel name|destination name)$/],
  ['channel', /^(channel|channel no|channel number)$/],
  ['address', /^(address|ip|ip address)$/],
  ['longName', /^(long name|full name)$/],
  ['multicast', /^(multicast|multicast address|stream address)$/],
  ['format', /^(format|packet type|stream type)$/],
  ['pad', /^(pad)$/],
  ['mode', /^(mode|input mode)$/],
  ['logic', /^(logic port|logic)$/],
  ['studios', /^(studios allowed|studio s allowed|studios)$/],
  ['share', /^(share|shareable)$/],
  ['fader', /^(fader default|fader)$/],
  ['backfeed', /^(backfeed|mix minus|backfeed mix minus)$/],
  ['subscribed', /^(subscribed channel|subscribed|source channel)$/],
  ['strip', /^(strip|strip text|designation)$/],
  ['notes', /^(notes?|remarks?|comments?|misc)$/],
];

export const RACK_WORDS: readonly [string, RegExp][] = [
  ['rack', /^(rack|rack id|rack no|rack name|cabinet|bay)$/],
  ['room', /^(room|location|loc|studio)$/],
  ['height', /^(height|height u|units|size|u|rack units|total u)$/],
  ['numbering', /^(numbering|numbered from|numbered from bottom|u numbering|counts from|direction)$/],
];

export const CIRCUIT_WORDS: readonly [string, RegExp][] = [
  ['circuit', /^(circuit|circuit name|service|service name|name|programme|program|chain)$/],
  ['role', /^(main standby|main or standby|main backup|role|standby)$/],
  [
    'carrier',
    /^(carrier|carrier no|carrier number|carriers number|carrier s number|carrier circuit|carrier ref|line no|telco no)$/,
  ],
  ['hops', /^(hops|cables|runs over|cable numbers|cable nos|route|path|via)$/],
  ['notes', /^(notes?|remarks?|comments?|misc)$/],
];
