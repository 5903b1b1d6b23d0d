// A model of the floor that plays steps and breaks on any broken rule: two plugs in one jack, two in the hand, a plug
// that is not there, phantom power on or not yet gone while a plug moves. Knows nothing of how the steps were found.
import { expect } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import type { BackStep } from '../../../src/core/fixes/back.ts';
import { type FixList, planFixes } from '../../../src/core/fixes/fixes.ts';
import type { FixInput } from '../../../src/core/fixes/input.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';

/** The list for a plan and events, with nothing decided and everything allowed; places walk as the plan lists them. */
export function listOf(plan: Plan, events: AuditEvent[], more: Partial<FixInput> = {}): FixList {
  const fold = foldAll(plan, events);
  const differences = fold.discrepancies();
  const { causes } = explain(fold, differences);
  const order = plan.jacks.map(({ id }) => id);
  const rank = (place: string) => (order.includes(place) ? order.indexOf(place) : order.length);
  return planFixes(fold, { differences, causes, decisions: [], permission: 'disconnect', rank, ...more });
}

export interface FloorModel {
  /** Place to the labels of the cables plugged there. A loose place takes any number. */
  plugs: Map<string, string[]>;
  /** Labels stuck on the plug at a place. */
  labels: Map<string, Set<string>>;
  settings: Map<string, string>;
  hand: string[];
  muted: Set<string>;
  /** Places whose phantom went off and nobody has waited since. */
  charged: Set<string>;
  mults: Set<string>;
}

export function floorModel(
  plugs: Iterable<[place: string, label: string]>,
  more: { settings?: Iterable<[string, string]>; mults?: Iterable<string> } = {},
): FloorModel {
  const model: FloorModel = {
    plugs: new Map(),
    labels: new Map(),
    settings: new Map(more.settings),
    hand: [],
    muted: new Set(),
    charged: new Set(),
    mults: new Set(more.mults),
  };
  for (const [place, label] of plugs) {
    model.plugs.set(place, [...(model.plugs.get(place) ?? []), label]);
    model.labels.set(label, new Set([label]));
  }
  return model;
}

/** What can be seen of it, for comparing. */
export function seen({ plugs, labels, settings, hand }: FloorModel) {
  return {
    plugs: [...plugs]
      .filter(([, at]) => at.length > 0)
      .map(([place, at]) => [place, [...at].sort()])
      .sort(),
    labels: [...labels].map(([plug, texts]) => [plug, [...texts].sort()]).sort(),
    settings: [...settings].sort(),
    hand,
  };
}

const phantomOf = (place: string) => `${place} phantom`;

export function play(model: FloorModel, steps: readonly BackStep[]): FloorModel {
  for (const step of steps) {
    const { action, task, from, to, label } = step;
    const out = (place: string) => {
      const at = model.plugs.get(place) ?? [];
      expect(at, `${label} is in ${place}`).toContain(label);
      at.splice(at.indexOf(label!), 1);
      live(place);
    };
    const into = (place: string) => {
      const at = model.plugs.get(place) ?? [];
      model.plugs.set(place, at);
      if (!place.startsWith('~') && !model.mults.has(place)) expect(at, `${place} is free for ${label}`).toEqual([]);
      at.push(label!);
      live(place);
    };
    /** Nothing moves at a jack that has phantom power. */
    const live = (place: string) => {
      expect(model.settings.get(phantomOf(place)) ?? 'off', `phantom at ${place}`).toBe('off');
      expect([...model.charged], `waited at ${place}`).not.toContain(place);
    };
    switch (action) {
      case 'hold':
        out(from!);
        model.hand.push(label!);
        break;
      case 'pull':
        out(from!);
        into(to!);
        break;
      case 'plug':
        if (from !== null) out(from);
        else expect(model.hand.splice(model.hand.indexOf(label!), 1), `${label} is in the hand`).toEqual([label]);
        into(to!);
        break;
      case 'set':
        if (task === 'mute') model.muted.add(to!);
        else if (task === 'unmute') model.muted.delete(to!);
        else {
          model.settings.set(`${to} ${step.value!.name}`, step.value!.to!);
          if (task === 'phantom-off') model.charged.add(to!);
        }
        break;
      case 'wait':
        model.charged.clear();
        break;
      case 'relabel': {
        const plug = model.plugs.get(to!)![0]!;
        if (task === 'label-put') model.labels.get(plug)!.add(label!);
        else expect(model.labels.get(plug)!.delete(label!), `${label} is on ${plug}`).toBe(true);
        break;
      }
      default:
    }
    expect(model.hand.length).toBeLessThanOrEqual(1);
  }
  return model;
}
