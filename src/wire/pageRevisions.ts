// Questions about the revisions of the plan and their answers. Types alone; answers are made in workers/answersRevisions.ts.

export interface RevisionQuestions {
  /** Named by the last adoption, whether or not its document is here. */
  planInForce: { ask: Record<never, never>; answer: { revision: string; name: string } | null };
}
