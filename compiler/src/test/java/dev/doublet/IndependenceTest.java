package dev.doublet;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.equivalentTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Permission;
import dev.doublet.table.TableModel;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Who judges shares no code with what is judged: a rule of the table's format that both took from
 * one place would be wrong in both, and no proof would see it.
 */
@AnalyzeClasses(locations = ArchitectureTest.Compiled.class)
class IndependenceTest {
  private static final DescribedPredicate<JavaClass> WRITES =
      table("TableWriter", "Index", "PlaceBytes", "NumeralBytes", "Bytes", "Cycles", "Checksum");
  private static final DescribedPredicate<JavaClass> READS =
      table("TableDecoder", "IndexDecoder", "PlaceDecoder", "TableBytes");
  private static final DescribedPredicate<JavaClass> EXPECTS = table("ExpectedBehaviour");

  /** What is written and read: records, and the reasons for which either is refused. */
  private static final DescribedPredicate<JavaClass> MODEL =
      table("TableModel", "TableFault")
          .or(equivalentTo(Answer.class))
          .or(equivalentTo(Bus.Speaks.class));

  private static final DescribedPredicate<JavaClass> JDK = resideInAPackage("java..");

  @ArchTest
  static final ArchRule who_writes_tables_knows_nothing_of_who_reads_them =
      classes().that(WRITES).should().onlyDependOnClassesThat(WRITES.or(MODEL).or(JDK));

  @ArchTest
  static final ArchRule who_reads_tables_knows_nothing_of_who_writes_them =
      classes().that(READS).should().onlyDependOnClassesThat(READS.or(MODEL).or(JDK));

  @ArchTest
  static final ArchRule what_is_read_and_written_is_data_and_computes_nothing_for_both =
      noClasses()
          .that(READS)
          .should()
          .callMethodWhere(
              describe("the model works something out", IndependenceTest::worksSomethingOut));

  @ArchTest
  static final ArchRule what_is_expected_of_a_table_knows_of_no_table =
      classes()
          .that(EXPECTS)
          .should()
          .onlyDependOnClassesThat(
              EXPECTS
                  .or(JDK)
                  .or(resideInAPackage("dev.doublet.layout"))
                  .or(resideInAPackage("dev.doublet.rulebook"))
                  .or(resideInAPackage("dev.doublet.bus"))
                  .or(resideInAPackage("dev.doublet.source")));

  @ArchTest
  static final ArchRule who_proves_tables_takes_nothing_from_who_makes_them =
      noClasses()
          .that(table("TableProof", "TableReader", "ExpectedBehaviour"))
          .should()
          .dependOnClassesThat(
              table("Lowering", "Lights", "Refusals")
                  .or(table("TableWriter", "Index", "PlaceBytes", "NumeralBytes", "Cycles")));

  @ArchTest
  static final ArchRule what_addresses_say_is_worked_out_for_the_proof_alone =
      noClasses()
          .that(table("Lowering", "Lights", "Refusals", "TableReader").or(WRITES).or(READS))
          .should()
          .callMethodWhere(
              describe(
                  "a way says what it received",
                  (JavaMethodCall call) ->
                      call.getTargetOwner().isAssignableTo(Way.Switched.class)
                          && call.getName().equals("value")));

  /** The faults' oracles have an order of permissions of their own, counted out in worlds. */
  @Test
  void the_oracles_of_faults_do_not_ask_the_compiler_which_aspect_permits_more() {
    JavaClasses tests =
        new ClassFileImporter()
            .importUrl(IndependenceTest.class.getProtectionDomain().getCodeSource().getLocation());
    Set<String> oracles = Set.of("CountingCrew", "Worlds", "Weighing");
    DescribedPredicate<JavaClass> judges =
        describe("judge faults", c -> oracles.contains(outermost(c).getSimpleName()));
    noClasses()
        .that(resideInAPackage("dev.doublet.failure").and(judges))
        .should()
        .callMethodWhere(
            describe(
                "permissions are compared",
                (JavaMethodCall call) ->
                    call.getTargetOwner().isEquivalentTo(Permission.class)
                        && !isAccessor(call)
                        && !call.getName().equals("words")))
        .check(tests);
  }

  private static DescribedPredicate<JavaClass> table(String... names) {
    return describe(
        String.join(", ", names),
        c ->
            outermost(c).getPackageName().equals("dev.doublet.table")
                && Set.of(names).contains(outermost(c).getSimpleName()));
  }

  private static JavaClass outermost(JavaClass nested) {
    JavaClass one = nested.getBaseComponentType();
    return one.getEnclosingClass().map(IndependenceTest::outermost).orElse(one);
  }

  private static boolean worksSomethingOut(JavaMethodCall call) {
    return outermost(call.getTargetOwner()).isEquivalentTo(TableModel.class)
        && !call.getTargetOwner().isEnum()
        && !isAccessor(call);
  }

  private static boolean isAccessor(JavaMethodCall call) {
    return call.getTarget().getRawParameterTypes().isEmpty()
        && call.getTargetOwner().tryGetField(call.getName()).isPresent();
  }
}
