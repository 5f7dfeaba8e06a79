package dev.doublet.oracle;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * {@link TableOracleTest} at larger sizes and with a SAT solver alone, since diagrams over 24
 * variables do not end. 10,000 rows agree too, but take the solver nine minutes. It runs only when
 * asked for: {@code mvn test -Poracles}.
 */
class ManyTables {

  @ParameterizedTest(name = "{0} rows over {1} variables, {2} dropped, {3} repeated, {4} widened")
  @CsvSource({"2000, 24, 30, 30, 30", "4000, 24, 50, 50, 50"})
  void theEngineAndASolverAnswerAlike(
      int count, int width, int dropped, int repeated, int widened) {
    TableOracleTest.assertSatAgrees(
        TableOracleTest.partition(count, width, dropped, repeated, widened));
  }
}
