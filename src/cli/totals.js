// The closing line of the check. Counts tests, and as one failure each: a test file that could not run, and a step that
// failed without a failed test to show for it. Never says less than what went wrong.

/** `report` is what vitest's JSON reporter wrote, or null when it wrote nothing; `failedSteps` are names. */
export function totalsLine(report, failedSteps) {
  const passed = report?.numPassedTests ?? 0;
  const skipped = (report?.numPendingTests ?? 0) + (report?.numTodoTests ?? 0);
  const broken = (report?.testResults ?? []).filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((one) => one.status === 'failed'),
  );
  const inTests = (report?.numFailedTests ?? 0) + broken.length;
  const steps = failedSteps.filter((name) => name !== 'tests').length;
  const unsaid = inTests === 0 && (failedSteps.includes('tests') || passed === 0) ? 1 : 0;
  const failed = inTests + steps + unsaid;
  return { line: `${passed} passed, ${failed} failed, ${skipped} skipped`, failed };
}
