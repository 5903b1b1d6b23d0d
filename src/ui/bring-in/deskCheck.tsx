// The desk check of the plan in force: what the schedule gets wrong by itself, before anybody walks. Reading only.
import { useAsked } from '../context.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty } from '../parts/rows.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { DeskCaution, DeskFindings, deskToWords } from './deskFindings.tsx';
import '../look/desk.css';

export default function DeskCheck() {
  const asked = useAsked('desk', {});
  if (asked.type !== 'ready' || asked.value === null) {
    return (
      <NoAnswer
        title="Desk check"
        asked={asked}
        missing="There is no plan on this phone to check."
        next="Import a cable schedule, or pair this phone with a station that has one."
      />
    );
  }
  const view = asked.value;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the plan', onPress: () => go({ screen: 'plan' }) }}
          cells={[
            { small: view.plan || 'Plan in force', big: 'Desk check', heading: true },
            { small: 'Found', big: String(view.count) },
          ]}
        />
      }
      above={<DeskCaution view={view} />}
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'The station’s', big: 'Rules', onPress: () => go({ screen: 'site-rules' }) },
              { small: 'What is in it', big: 'Plan', onPress: () => go({ screen: 'plan' }) },
              { small: 'Newer sheet', big: 'Import', onPress: () => go({ screen: 'bring-in' }) },
            ],
          ]}
        />
      }
    >
      {view.count === 0 ? (
        <Empty
          what="The desk check finds nothing."
          why="The schedule does not contradict itself. Only a walk can tell whether the racks match it."
        />
      ) : (
        <p class="desk-note">
          {deskToWords(view)}. These are faults on paper: the schedule contradicts itself or breaks a rule of the trade.
        </p>
      )}
      <DeskFindings view={view} onPress={({ about }) => about !== null && go({ screen: 'search', text: about })} />
    </Screen>
  );
}
