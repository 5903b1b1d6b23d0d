// French, Spanish, Italian and Portuguese stations. Invented; the words are common practice, from memory.
import type { Fixture } from './fixture.ts';

export const SOUTHERN: Fixture[] = [
  {
    name: 'origine et destination',
    who: 'a French local station',
    sheets: [
      {
        name: 'Câblage',
        rows: `
N° câble | Origine | Sortie | Destination | Entrée | Signal | Longueur
F101 | LECTEUR1 | S1 | CONSOLE | E1 | audio | 4 m => F101: LECTEUR1 @ S1 > CONSOLE @ E1 {line-audio, length=4 m}
F102 | LECTEUR1 | S2 | CONSOLE | E2 | audio | 4 m => F102: LECTEUR1 @ S2 > CONSOLE @ E2 {line-audio, length=4 m}
F103 | LECTEUR2 | S1 | CONSOLE | E3 | audio | 4 m => F103: LECTEUR2 @ S1 > CONSOLE @ E3 {line-audio, length=4 m}
F104 | CONSOLE | RJ1 | SW1 | P05 | réseau | 10 m => F104: CONSOLE @ RJ1 > SW1 @ P05 {network, length=10 m}`,
      },
    ],
  },
  {
    name: 'tenant et aboutissant',
    who: 'a French electrician',
    sheets: [
      {
        name: 'Carnet de câbles',
        rows: `
Repère | Tenant | Borne | Aboutissant | Borne | Section | Long. | Observations
W1 | TGBT | 1 | BAIE1 | 3 | 3G2,5 | 22 | => W1: TGBT @ 1 > BAIE1 @ 3
W2 | TGBT | 2 | BAIE2 | 3 | 3G2,5 | 25 | => W2: TGBT @ 2 > BAIE2 @ 3
W3 | TGBT | 3 | BAIE3 | 3 | id. | 28 | supprimé
W4 | TGBT | 4 | BAIE4 | 3 | id. | 31 | => W4: TGBT @ 4 > BAIE4 @ 3
W5 | TGBT | 5 | libre | | 3G2,5 | | => W5: TGBT @ 5 > - {spare}`,
      },
    ],
  },
  {
    name: 'origen y destino',
    who: 'a Spanish community station',
    sheets: [
      {
        name: 'Cableado',
        rows: `
Nº | Equipo origen | Salida | Equipo destino | Entrada | Tipo de señal | Estado
E101 | MESA1 | OUT 1 | AMP1 | IN 1 | audio | instalado => E101: MESA1 @ OUT 1 > AMP1 @ IN 1 {line-audio}
E102 | MESA1 | OUT 2 | AMP1 | IN 2 | audio | instalado => E102: MESA1 @ OUT 2 > AMP1 @ IN 2 {line-audio}
E103 | MESA1 | OUT 3 | AMP2 | IN 1 | audio | retirado
E104 | MESA1 | OUT 4 | AMP2 | IN 2 | audio | pendiente => E104: MESA1 @ OUT 4 > AMP2 @ IN 2 {line-audio, future}
E105 | MESA1 | NET | SW1 | P03 | red | instalado => E105: MESA1 @ NET > SW1 @ P03 {network}`,
      },
    ],
  },
  {
    name: 'lista cavi',
    who: 'an Italian outside broadcast engineer',
    sheets: [
      {
        name: 'Lista cavi',
        rows: `
Cavo | Da | Uscita | A | Ingresso | Tipo | Note
B01 | MIXER1 | OUT 1 | CODEC1 | IN L | cavo audio | => B01: MIXER1 @ OUT 1 > CODEC1 @ IN L
B02 | MIXER1 | OUT 2 | CODEC1 | IN R | cavo audio | => B02: MIXER1 @ OUT 2 > CODEC1 @ IN R
B03 | CODEC1 | OUT L | MIXER1 | IN 5 | c.s. | => B03: CODEC1 @ OUT L > MIXER1 @ IN 5
B04 | CODEC1 | OUT R | MIXER1 | IN 6 | c.s. | non collegato => B04: CODEC1 @ OUT R > MIXER1 @ IN 6`,
      },
    ],
  },
  {
    name: 'de e para',
    who: 'a Portuguese speaking station',
    sheets: [
      {
        name: 'Cabos',
        rows: `
Cabo | De | Saída | Para | Entrada | Sinal | Comprimento
P101 | MESA1 | OUT 1 | GRAV1 | IN 1 | áudio | 3 m => P101: MESA1 @ OUT 1 > GRAV1 @ IN 1 {line-audio, length=3 m}
P102 | MESA1 | OUT 2 | GRAV1 | IN 2 | áudio | 3 m => P102: MESA1 @ OUT 2 > GRAV1 @ IN 2 {line-audio, length=3 m}
P103 | MESA1 | OUT 3 | GRAV2 | IN 1 | áudio | 5 m => P103: MESA1 @ OUT 3 > GRAV2 @ IN 1 {line-audio, length=5 m}
P104 | GRAV1 | NET | SW1 | P09 | rede | 2 m => P104: GRAV1 @ NET > SW1 @ P09 {network, length=2 m}`,
      },
    ],
  },
  {
    name: 'départ arrivée',
    who: 'a French network person',
    sheets: [
      {
        name: 'Brassage',
        rows: `
Cordon | Départ | Port | Arrivée | Port | Couleur
J-01 | BANDEAU A | 1 | SW1 | 1 | bleu => J-01: BANDEAU A @ 1 > SW1 @ 1
J-02 | BANDEAU A | 2 | SW1 | 2 | bleu => J-02: BANDEAU A @ 2 > SW1 @ 2
J-03 | BANDEAU A | 3 | SW1 | 3 | rouge => J-03: BANDEAU A @ 3 > SW1 @ 3
J-04 | BANDEAU B | 1 | SW2 | 1 | bleu => J-04: BANDEAU B @ 1 > SW2 @ 1
J-05 | BANDEAU B | 2 | à préciser | | rouge => J-05: BANDEAU B @ 2 > -`,
      },
    ],
  },
];
