package dev.doublet;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaConstructor;
import com.tngtech.archunit.core.domain.JavaMember;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Nothing is kept in the compiler for its tests alone: all of it is reached from {@code main}. A
 * call reaches what it names and whatever overrides that; a class that is reached is reached with
 * what it overrides of a library's, and with what an annotation of the command line's library
 * marks. What a record or an enum gets by being one does not count.
 */
class ReachedCodeTest {
  private static final String OURS = "dev.doublet";

  /** What tests alone reach and stays all the same, by what its full name begins with, and why. */
  private static final Map<String, String> KEPT =
      new TreeMap<>(
          Map.of(
              "dev.doublet.cli.Version.<init>(", "the command line's library makes one",
              "dev.doublet.colour.Outline.corners(", "published corners are compared with them",
              "dev.doublet.colour.Region.corners(", "published corners are compared with them",
              "dev.doublet.table.TableFault.reason(", "the reader in C gives the same reasons",
              "dev.doublet.table.TableReader.",
                  "the reader in C is compared with it in all it does"));

  private final Set<JavaCodeUnit> reached = new HashSet<>();
  private final Set<JavaClass> classes = new HashSet<>();
  private final Deque<JavaCodeUnit> open = new ArrayDeque<>();

  @Test
  void all_of_it_is_reached_from_main() {
    JavaClasses all =
        new ClassFileImporter().importLocations(new ArchitectureTest.Compiled().get(getClass()));
    all.get("dev.doublet.cli.Main").getMethods().stream()
        .filter(m -> m.getName().equals("main"))
        .forEach(this::reach);
    while (!open.isEmpty()) {
      JavaCodeUnit unit = open.poll();
      unit.getAccessesFromSelf().forEach(this::follow);
      unit.getReferencedClassObjects().forEach(c -> reach(c.getRawType()));
    }
    Set<String> left = new TreeSet<>();
    for (JavaClass one : all) {
      if (!isGenerated(one)) {
        one.getCodeUnits().stream()
            .filter(u -> !reached.contains(u) && !isImplied(u))
            .forEach(u -> left.add(u.getFullName()));
      }
    }
    Set<String> idle = new TreeSet<>(KEPT.keySet());
    idle.removeIf(kept -> left.removeIf(name -> name.startsWith(kept)));
    assertThat(left).as("reached by no code but tests").isEmpty();
    assertThat(idle).as("kept for nothing").isEmpty();
  }

  private void follow(JavaAccess<?> access) {
    reach(access.getTargetOwner());
    access
        .getTarget()
        .resolveMember()
        .ifPresent(
            target -> {
              if (target instanceof JavaMethod method) {
                reach(method);
                Stream.of(access.getTargetOwner(), method.getOwner())
                    .flatMap(owner -> owner.getAllSubclasses().stream())
                    .flatMap(below -> below.getMethods().stream())
                    .filter(other -> isAlike(other, method))
                    .forEach(this::reach);
              } else if (target instanceof JavaCodeUnit unit) {
                reach(unit);
              }
            });
  }

  private void reach(JavaCodeUnit unit) {
    if (unit.getOwner().getPackageName().startsWith(OURS) && reached.add(unit)) {
      open.add(unit);
    }
    reach(unit.getOwner());
  }

  private void reach(JavaClass one) {
    if (!one.getPackageName().startsWith(OURS) || !classes.add(one)) {
      return;
    }
    one.getStaticInitializer().ifPresent(this::reach);
    one.getRawSuperclass().ifPresent(this::reach);
    one.getRawInterfaces().forEach(this::reach);
    one.getFields().stream().filter(f -> isMarked(f)).forEach(f -> reach(f.getRawType()));
    one.getMethods().stream().filter(m -> isMarked(m) || overridesLibrary(m)).forEach(this::reach);
  }

  private static boolean isMarked(JavaMember member) {
    return member.getAnnotations().stream()
        .anyMatch(a -> a.getRawType().getName().startsWith("picocli"));
  }

  private static boolean overridesLibrary(JavaMethod method) {
    JavaClass owner = method.getOwner();
    return Stream.concat(
            owner.getAllRawSuperclasses().stream(), owner.getAllRawInterfaces().stream())
        .filter(above -> !above.getPackageName().startsWith(OURS))
        .flatMap(above -> above.getMethods().stream())
        .anyMatch(other -> isAlike(other, method));
  }

  /** Names and counts are enough: types of generic parameters differ. */
  private static boolean isAlike(JavaMethod one, JavaMethod other) {
    return one.getName().equals(other.getName())
        && one.getRawParameterTypes().size() == other.getRawParameterTypes().size();
  }

  private static boolean isImplied(JavaCodeUnit unit) {
    JavaClass owner = unit.getOwner();
    boolean nullary = unit.getRawParameterTypes().isEmpty();
    return unit.getModifiers().contains(JavaModifier.SYNTHETIC)
        || unit.getModifiers().contains(JavaModifier.BRIDGE)
        || unit instanceof JavaConstructor && unit.getModifiers().contains(JavaModifier.PRIVATE)
        || owner.isEnum() && Set.of("values", "valueOf").contains(unit.getName())
        || owner.isRecord() && nullary && owner.tryGetField(unit.getName()).isPresent()
        || owner.isRecord() && Set.of("equals", "hashCode", "toString").contains(unit.getName());
  }

  /** Code of the parser generator, and what the compiler makes of a switch over an enum. */
  private static boolean isGenerated(JavaClass one) {
    return one.getPackageName().startsWith("dev.doublet.grammar")
        || one.getModifiers().contains(JavaModifier.SYNTHETIC)
        || one.getSimpleName().isEmpty();
  }
}
