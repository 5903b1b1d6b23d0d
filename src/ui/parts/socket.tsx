// One socket as the eye sees it, drawn in a box of 36 by 30: outline, contacts when empty, a small solid plug when
// plugged, dashes when not looked at. A verdict never fills it; its mark stands beneath or on the leader.
import type { JackState } from './marks.ts';

type SocketKind = 'network' | 'xlr' | 'plug' | 'bnc' | 'dsub' | 'block' | 'fibre' | 'plain';

const KINDS: readonly [RegExp, SocketKind][] = [
  [/rj-?\d|8p8c|network|ethernet/i, 'network'],
  [/xlr/i, 'xlr'],
  [/bnc/i, 'bnc'],
  [/d-?sub|\bd[abcde]-?\d+|hd-?15|sub-?d/i, 'dsub'],
  [/terminal|block|punch|idc|screw|landing|solder/i, 'block'],
  [/fibre|fiber|\blc\b|\bsc\b|\bst\b|sfp/i, 'fibre'],
  [/jack|trs|\bts\b|\btt\b|bantam|6[.,]35|3[.,]5/i, 'plug'],
];

/** The outline to draw for a connector as the jack list words it. A word nobody knows gives the plain box. */
export function socketKind(connector: string | undefined): SocketKind {
  if (connector === undefined) return 'plain';
  return KINDS.find(([words]) => words.test(connector))?.[1] ?? 'plain';
}

const NETWORK = 'M1 29V9H8V5H12V1H24V5H28V9H35V29Z';
const NETWORK_PLUG = 'M6 25V13H12V9H15V5H21V9H24V13H30V25Z';
const CONTACTS = 'M9 29V23M12 29V23M15 29V23M18 29V23M21 29V23M24 29V23M27 29V23';
const DSUB = 'M3 7H33L29 24H7Z';

function Outline(props: { kind: SocketKind }) {
  switch (props.kind) {
    case 'network':
      return <path d={NETWORK} />;
    case 'xlr':
    case 'plug':
      return <circle cx="18" cy="15" r="13.5" />;
    case 'bnc':
      return (
        <>
          <circle cx="18" cy="15" r="11" />
          <path d="M7 12.5H4V17.5H7M29 12.5H32V17.5H29" />
        </>
      );
    case 'dsub':
      return <path d={DSUB} stroke-linejoin="round" />;
    case 'block':
      return <path d="M5 2H31V28H5Z" />;
    case 'fibre':
      return <path d="M3 6H17V25H3ZM19 6H33V25H19Z" />;
    case 'plain':
      return <path d="M3 4H33V27H3Z" />;
  }
}

/** What an empty socket shows inside. */
function Contacts(props: { kind: SocketKind }) {
  switch (props.kind) {
    case 'network':
      return <path d={CONTACTS} class="socket-thin" />;
    case 'xlr':
      return <path d="M12 12h.01M24 12h.01M18 21h.01" class="socket-dots" />;
    case 'plug':
      return <circle cx="18" cy="15" r="6" class="socket-thin" />;
    case 'bnc':
      return (
        <>
          <circle cx="18" cy="15" r="6" class="socket-thin" />
          <path d="M18 15h.01" class="socket-dots" />
        </>
      );
    case 'dsub':
      return (
        <path
          d="M10 12.5h.01M15.3 12.5h.01M20.6 12.5h.01M26 12.5h.01M13 18.5h.01M18 18.5h.01M23 18.5h.01"
          class="socket-dots"
        />
      );
    case 'block':
      return (
        <>
          <circle cx="18" cy="15" r="8" class="socket-thin" />
          <path d="M12.5 20.5 23.5 9.5" class="socket-thin" />
        </>
      );
    case 'fibre':
      return (
        <>
          <circle cx="10" cy="15.5" r="3" class="socket-thin" />
          <circle cx="26" cy="15.5" r="3" class="socket-thin" />
        </>
      );
    case 'plain':
      return null;
  }
}

function Plug(props: { kind: SocketKind }) {
  switch (props.kind) {
    case 'network':
      return <path d={NETWORK_PLUG} class="socket-plug" />;
    case 'xlr':
    case 'plug':
      return <circle cx="18" cy="15" r="9" class="socket-plug" />;
    case 'bnc':
      return <circle cx="18" cy="15" r="7" class="socket-plug" />;
    case 'dsub':
      return <path d="M8 10.5H28L25.6 20.5H10.4Z" class="socket-plug" />;
    case 'block':
      return <path d="M9.5 6.5H26.5V23.5H9.5Z" class="socket-plug" />;
    case 'fibre':
      return <path d="M6.5 9.5H13.5V21.5H6.5ZM22.5 9.5H29.5V21.5H22.5Z" class="socket-plug" />;
    case 'plain':
      return <path d="M8 9H28V22H8Z" class="socket-plug" />;
  }
}

export function Socket(props: {
  x: number;
  y: number;
  /** Drawn width; the height follows as 30 : 36. */
  width: number;
  connector?: string | undefined;
  state: JackState;
  upsideDown?: boolean | undefined;
}) {
  const kind = socketKind(props.connector);
  const scale = props.width / 36;
  const turn = props.upsideDown ? ' rotate(180 18 15)' : '';
  const unseen = props.state === 'unseen' || props.state === 'could-not-see';
  return (
    <g
      class={`socket ${unseen ? 'socket-unseen' : 'socket-seen'}`}
      transform={`translate(${props.x} ${props.y}) scale(${scale})${turn}`}
    >
      <Outline kind={kind} />
      {props.state === 'empty' && <Contacts kind={kind} />}
      {!unseen && props.state !== 'empty' && <Plug kind={kind} />}
      {props.state === 'could-not-see' && <path d="M2 30 34 0" class="socket-struck" />}
    </g>
  );
}
