// Patch bays with normals and punch blocks with pairs, as those who keep them write them. Invented.
import type { Fixture } from './fixture.ts';

export const PANELS: Fixture[] = [
  {
    name: 'patch bay with sources and normals',
    who: 'a studio with a jack field',
    anyOrder: true,
    sheets: [
      {
        name: 'Patch bay PB1',
        rows: `
Jack | Designation | Rear cable | Rear goes to | Normalled to
A1 | PLY1 L | 6001 | PLY1 OUT L | B1 => 6001: PB1 @ A1 > PLY1 @ OUT L
A2 | PLY1 R | 6002 | PLY1 OUT R | B2 => 6002: PB1 @ A2 > PLY1 @ OUT R
B1 | CON30 1L | 6011 | CON30 IN 1 | A1 => 6011: PB1 @ B1 > CON30 @ IN 1
B2 | CON30 1R | 6012 | CON30 IN 2 | A2 => 6012: PB1 @ B2 > CON30 @ IN 2
B3 | tie | 6013 | PB2 A3 | none => 6013: PB1 @ B3 > PB2 @ A3`,
      },
    ],
  },
  {
    name: 'patch bay rows above and below',
    who: 'a jack field drawn as it looks',
    anyOrder: true,
    sheets: [
      {
        name: 'PB2',
        rows: `
PB2 | Top row | | Bottom row | | Normal
No | Top from | Cable | Bottom to | Cable | Full/Half
1 | PLY1 OUT L | 6101 | CON30 IN 1 | 6121 | half => 6101: PB2 @ 1 top~T1~TOP 1~1T > PLY1 @ OUT L ;; 6121: PB2 @ 1 bottom~B1~BOTTOM 1~1B > CON30 @ IN 1
2 | PLY1 OUT R | 6102 | CON30 IN 2 | 6122 | half => 6102: PB2 @ 2 top~T2~TOP 2~2T > PLY1 @ OUT R ;; 6122: PB2 @ 2 bottom~B2~BOTTOM 2~2B > CON30 @ IN 2
3 | PLY2 OUT L | 6103 | CON30 IN 3 | 6123 | none => 6103: PB2 @ 3 top~T3~TOP 3~3T > PLY2 @ OUT L ;; 6123: PB2 @ 3 bottom~B3~BOTTOM 3~3B > CON30 @ IN 3`,
      },
    ],
  },
  {
    name: 'punch block with pairs',
    who: 'a transmitter site with blocks on a board',
    anyOrder: true,
    sheets: [
      {
        name: 'Block 66-2',
        rows: `
Cable | From Unit | From Jack | Block | Row | Pair | Tip | Ring
7001 | RMT1 | 1 | BLK2 | 1 | 1 | white/blue | blue/white => 7001: RMT1 @ 1 > BLK2 @ 1 1~1-1
7002 | RMT1 | 2 | BLK2 | 1 | 2 | white/orange | orange/white => 7002: RMT1 @ 2 > BLK2 @ 1 2~1-2
7003 | RMT1 | 3 | BLK2 | 1 | 3 | white/green | green/white => 7003: RMT1 @ 3 > BLK2 @ 1 3~1-3
7004 | RMT1 | 4 | BLK2 | 1 | 4 | white/brown | brown/white => 7004: RMT1 @ 4 > BLK2 @ 1 4~1-4`,
      },
    ],
  },
  {
    name: 'punch block seen from both of its sides',
    who: 'an engineer with house side and jumper side',
    anyOrder: true,
    sheets: [
      {
        name: 'BLK3',
        rows: `
Pair | House cable | House from | Jumper cable | Jumper to | Remarks
1 | 7101 | STUDIO A PANEL 1 | J1 | HYB41 LINE | POTS => 7101: BLK3 @ 1~1 HOUSE~HOUSE 1 > STUDIO A PANEL~PANEL @ 1 ;; J1: BLK3 @ 1~1 JUMPER~JUMPER 1 > HYB41 @ LINE
2 | 7102 | STUDIO A PANEL 2 | J2 | HYB42 LINE | POTS => 7102: BLK3 @ 2~2 HOUSE~HOUSE 2 > STUDIO A PANEL~PANEL @ 2 ;; J2: BLK3 @ 2~2 JUMPER~JUMPER 2 > HYB42 @ LINE
3 | 7103 | STUDIO A PANEL 3 | | | spare => 7103: BLK3 @ 3~3 HOUSE~HOUSE 3 > STUDIO A PANEL~PANEL @ 3 {spare}`,
      },
    ],
  },
  {
    name: 'network panel to outlets',
    who: 'a building contractor',
    anyOrder: true,
    sheets: [
      {
        name: 'Outlets',
        rows: `
Room | Outlet | Panel | Position | Tested
1.04 | 1.04-A | PNL1 | 1 | pass => 1.04-A~: 1.04-A~1.04 @ 1.04-A~A~? > PNL1 @ 1
1.04 | 1.04-B | PNL1 | 2 | pass => 1.04-B~: 1.04-B~1.04 @ 1.04-B~B~? > PNL1 @ 2
1.05 | 1.05-A | PNL1 | 3 | pass => 1.05-A~: 1.05-A~1.05 @ 1.05-A~A~? > PNL1 @ 3
1.05 | 1.05-B | PNL1 | 4 | fail => 1.05-B~: 1.05-B~1.05 @ 1.05-B~B~? > PNL1 @ 4`,
      },
    ],
  },
];
