// German, Dutch and Russian stations, in the words of their trades. Invented; the words are common practice, from memory.
import type { Fixture } from './fixture.ts';

export const NORTHERN: Fixture[] = [
  {
    name: 'quelle und ziel',
    who: 'a German studio engineer',
    sheets: [
      {
        name: 'Kabelliste',
        rows: `
Kabel-Nr. | Quelle | Ausgang | Ziel | Eingang | Signal | Länge
K101 | AIO21 | AUS 1 | PULT1 | EIN 1 | AES | 12 m => K101: AIO21 @ AUS 1 > PULT1 @ EIN 1 {aes3, length=12 m}
K102 | AIO21 | AUS 2 | PULT1 | EIN 2 | AES | 12 m => K102: AIO21 @ AUS 2 > PULT1 @ EIN 2 {aes3, length=12 m}
K103 | AIO22 | AUS 1 | PULT1 | EIN 3 | AES | 15 m => K103: AIO22 @ AUS 1 > PULT1 @ EIN 3 {aes3, length=15 m}
K104 | SW1 | P07 | AIO22 | NET | Netzwerk | 3 m => K104: SW1 @ P07 > AIO22 @ NET {network, length=3 m}`,
      },
    ],
  },
  {
    name: 'von nach mit bemerkung',
    who: 'a German transmitter site',
    sheets: [
      {
        name: 'Verkabelung',
        rows: `
Lfd. Nr. | Kabel | Von Gerät | Von Klemme | Nach Gerät | Nach Klemme | Kabeltyp | Bemerkung
1 | S-201 | STEUERUNG | 1 | SENDER1 | 14 | 4x0,5 | => S-201: STEUERUNG @ 1 > SENDER1 @ 14
2 | S-202 | STEUERUNG | 2 | SENDER1 | 15 | 4x0,5 | => S-202: STEUERUNG @ 2 > SENDER1 @ 15
3 | S-203 | STEUERUNG | 3 | SENDER2 | 14 | dito | entfällt
4 | S-204 | STEUERUNG | 4 | SENDER2 | 15 | dito | => S-204: STEUERUNG @ 4 > SENDER2 @ 15
5 | S-205 | STEUERUNG | 5 | frei | | 4x0,5 | Reserve => S-205: STEUERUNG @ 5 > - {spare}`,
      },
    ],
  },
  {
    name: 'anschlussplan mit kopf',
    who: 'a German planning office',
    sheets: [
      {
        name: 'Anschlussplan',
        rows: `
Anschlussplan Regie 2 | | | | | |
Stand: 12.03.2019 | | gez.: | | gepr.: | |

 | Ort A | | Ort B | | |
Nr. | Gerät | Buchse | Gerät | Buchse | Typ | Länge [m]
301 | CON30 | OUT 1 | AMP2 | IN L | 2x0,22 | 7,5 => 301: CON30 @ OUT 1 > AMP2 @ IN L
302 | CON30 | OUT 2 | AMP2 | IN R | 2x0,22 | 7,5 => 302: CON30 @ OUT 2 > AMP2 @ IN R
303 | CON30 | OUT 3 | HP1 | IN | 2x0,22 | 2 => 303: CON30 @ OUT 3 > HP1 @ IN
Summe | | | | | | 17`,
      },
    ],
  },
  {
    name: 'kabellijst',
    who: 'a Dutch regional station',
    sheets: [
      {
        name: 'Kabellijst',
        rows: `
Kabelnr | Van | Uitgang | Naar | Ingang | Soort signaal | Lengte | Opmerking
N401 | SPELER1 | UIT L | TAFEL | IN 1 | audio | 4 m | => N401: SPELER1 @ UIT L > TAFEL @ IN 1 {line-audio, length=4 m}
N402 | SPELER1 | UIT R | TAFEL | IN 2 | audio | 4 m | => N402: SPELER1 @ UIT R > TAFEL @ IN 2 {line-audio, length=4 m}
N403 | SPELER2 | UIT L | TAFEL | IN 3 | idem | 4 m | => N403: SPELER2 @ UIT L > TAFEL @ IN 3 {line-audio, length=4 m}
N404 | SPELER2 | UIT R | TAFEL | IN 4 | idem | 4 m | vervallen
N405 | TAFEL | NET | SW1 | P11 | netwerk | 6 m | => N405: TAFEL @ NET > SW1 @ P11 {network, length=6 m}`,
      },
    ],
  },
  {
    name: 'kabel zhurnal',
    who: 'a Russian station',
    sheets: [
      {
        name: 'Кабельный журнал',
        rows: `
№ кабеля | Откуда | Выход | Куда | Вход | Марка | Длина, м | Примечание
К-101 | ПУЛЬТ1 | ВЫХ 1 | УС2 | ВХ 1 | 2х0,22 | 12 | => К-101: ПУЛЬТ1 @ ВЫХ 1 > УС2 @ ВХ 1
К-102 | ПУЛЬТ1 | ВЫХ 2 | УС2 | ВХ 2 | 2х0,22 | 12 | => К-102: ПУЛЬТ1 @ ВЫХ 2 > УС2 @ ВХ 2
К-103 | ПУЛЬТ1 | ВЫХ 3 | МОН1 | ВХ Л | 2х0,22 | 5 | => К-103: ПУЛЬТ1 @ ВЫХ 3 > МОН1 @ ВХ Л
К-104 | ПУЛЬТ1 | ВЫХ 4 | МОН1 | ВХ П | 2х0,22 | 5 | резерв => К-104: ПУЛЬТ1 @ ВЫХ 4 > МОН1 @ ВХ П {spare}`,
      },
    ],
  },
  {
    name: 'pinakas kalodion',
    who: 'a Greek island station',
    sheets: [
      {
        name: 'Καλώδια',
        rows: `
Αρ. | Από | Έξοδος | Προς | Είσοδος | Σήμα
101 | ΚΟΝΣΟΛΑ | OUT 1 | ΠΟΜΠΟΣ | IN L | audio => 101: ΚΟΝΣΟΛΑ @ OUT 1 > ΠΟΜΠΟΣ @ IN L {line-audio}
102 | ΚΟΝΣΟΛΑ | OUT 2 | ΠΟΜΠΟΣ | IN R | audio => 102: ΚΟΝΣΟΛΑ @ OUT 2 > ΠΟΜΠΟΣ @ IN R {line-audio}
103 | SRV1 | ETH0 | SW1 | P01 | LAN => 103: SRV1 @ ETH0 > SW1 @ P01 {network}
104 | SRV2 | ETH0 | SW1 | P02 | LAN => 104: SRV2 @ ETH0 > SW1 @ P02 {network}`,
      },
    ],
  },
];
