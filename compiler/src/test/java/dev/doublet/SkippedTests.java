package dev.doublet;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.TestSource;
import org.junit.platform.engine.support.descriptor.ClassSource;
import org.junit.platform.engine.support.descriptor.MethodSource;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.TestPlan;

/**
 * Names the tests that did not run, and why, when all others have: most want a tool that this
 * machine may lack, and nobody reads thousands of lines to find out.
 */
public final class SkippedTests implements TestExecutionListener {
  private final Map<String, Set<String>> byReason = new LinkedHashMap<>();

  @Override
  public synchronized void executionSkipped(TestIdentifier test, String reason) {
    byReason.computeIfAbsent(reason, r -> new TreeSet<>()).add(name(test));
  }

  @Override
  public void executionFinished(TestIdentifier test, TestExecutionResult result) {
    if (result.getStatus() == TestExecutionResult.Status.ABORTED) {
      String reason = result.getThrowable().map(Throwable::getMessage).orElse("no reason given");
      executionSkipped(test, reason);
    }
  }

  @Override
  public void testPlanExecutionFinished(TestPlan plan) {
    byReason.forEach(
        (reason, tests) -> {
          System.out.println("Skipped: " + reason);
          tests.forEach(test -> System.out.println("  " + test));
        });
    byReason.clear();
  }

  private static String name(TestIdentifier test) {
    TestSource source = test.getSource().orElse(null);
    if (source instanceof MethodSource method) {
      return method.getClassName() + "." + method.getMethodName();
    }
    return source instanceof ClassSource type ? type.getClassName() : test.getDisplayName();
  }
}
