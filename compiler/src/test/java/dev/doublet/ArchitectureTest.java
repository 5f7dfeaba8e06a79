package dev.doublet;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.junit.LocationProvider;
import com.tngtech.archunit.lang.ArchRule;
import dev.doublet.layout.Controller;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableHeader;
import dev.doublet.table.TableWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Stream;

/** Data flows one way: lower packages never import higher ones. */
@AnalyzeClasses(locations = ArchitectureTest.Compiled.class)
class ArchitectureTest {

  /** Where the compiler's own classes lie, and no test's, whatever compiled them. */
  static final class Compiled implements LocationProvider {
    @Override
    public Set<Location> get(Class<?> test) {
      return Set.of(
          Location.of(Compiler.class.getProtectionDomain().getCodeSource().getLocation()));
    }
  }

  @ArchTest
  static final ArchRule lower_packages_never_import_higher_ones =
      layeredArchitecture()
          .consideringOnlyDependenciesInLayers()
          .layer("source")
          .definedBy("dev.doublet.source")
          .layer("diagnostic")
          .definedBy("dev.doublet.diagnostic")
          .layer("cells")
          .definedBy("dev.doublet.cells")
          .layer("bus")
          .definedBy("dev.doublet.bus")
          .layer("colour")
          .definedBy("dev.doublet.colour")
          .layer("syntax")
          .definedBy("dev.doublet.syntax")
          .layer("rulebook")
          .definedBy("dev.doublet.rulebook")
          .layer("layout")
          .definedBy("dev.doublet.layout")
          .layer("layout.read")
          .definedBy("dev.doublet.layout.read")
          .layer("table")
          .definedBy("dev.doublet.table")
          .layer("power")
          .definedBy("dev.doublet.power")
          .layer("failure")
          .definedBy("dev.doublet.failure")
          .layer("facts")
          .definedBy("dev.doublet.facts")
          .layer("check")
          .definedBy("dev.doublet.check..")
          .layer("chart")
          .definedBy("dev.doublet.chart")
          .layer("report")
          .definedBy("dev.doublet.report")
          .layer("page")
          .definedBy("dev.doublet.page")
          .layer("diff")
          .definedBy("dev.doublet.diff")
          .layer("editor")
          .definedBy("dev.doublet.editor")
          .layer("serve")
          .definedBy("dev.doublet.serve")
          .layer("starter")
          .definedBy("dev.doublet.starter")
          .layer("broker")
          .definedBy("dev.doublet.broker")
          .layer("show")
          .definedBy("dev.doublet.show")
          .layer("format")
          .definedBy("dev.doublet.format")
          .layer("compiler")
          .definedBy("dev.doublet")
          .layer("cli")
          .definedBy("dev.doublet.cli")
          .whereLayer("source")
          .mayNotAccessAnyLayer()
          .whereLayer("diagnostic")
          .mayOnlyAccessLayers("source")
          .whereLayer("cells")
          .mayNotAccessAnyLayer()
          .whereLayer("bus")
          .mayNotAccessAnyLayer()
          .whereLayer("colour")
          .mayNotAccessAnyLayer()
          .whereLayer("syntax")
          .mayOnlyAccessLayers("source", "diagnostic")
          .whereLayer("rulebook")
          .mayOnlyAccessLayers("source", "diagnostic", "colour", "syntax")
          .whereLayer("layout")
          .mayOnlyAccessLayers("source", "diagnostic", "bus", "colour", "rulebook")
          .whereLayer("layout.read")
          .mayOnlyAccessLayers(
              "source", "diagnostic", "bus", "colour", "syntax", "rulebook", "layout")
          .whereLayer("table")
          .mayOnlyAccessLayers("source", "diagnostic", "bus", "colour", "rulebook", "layout")
          .whereLayer("power")
          .mayOnlyAccessLayers("colour", "rulebook", "layout", "table")
          .whereLayer("failure")
          .mayOnlyAccessLayers("source", "colour", "rulebook", "layout")
          .whereLayer("facts")
          .mayOnlyAccessLayers(
              "diagnostic", "cells", "colour", "rulebook", "layout", "table", "power", "failure")
          .whereLayer("check")
          .mayOnlyAccessLayers(
              "source",
              "diagnostic",
              "cells",
              "bus",
              "colour",
              "rulebook",
              "layout",
              "table",
              "power",
              "failure",
              "facts")
          .whereLayer("chart")
          .mayOnlyAccessLayers(
              "source",
              "diagnostic",
              "bus",
              "colour",
              "rulebook",
              "layout",
              "table",
              "power",
              "facts")
          .whereLayer("report")
          .mayOnlyAccessLayers("source", "diagnostic")
          .whereLayer("page")
          .mayOnlyAccessLayers(
              "source",
              "diagnostic",
              "bus",
              "colour",
              "rulebook",
              "layout",
              "table",
              "failure",
              "facts",
              "chart",
              "diff")
          .whereLayer("format")
          .mayOnlyAccessLayers("source", "diagnostic", "syntax")
          .whereLayer("starter")
          .mayOnlyAccessLayers("layout")
          .whereLayer("editor")
          .mayOnlyBeAccessedByLayers("serve", "cli")
          .whereLayer("serve")
          .mayOnlyBeAccessedByLayers("cli")
          .whereLayer("broker")
          .mayNotAccessAnyLayer()
          .whereLayer("show")
          .mayOnlyAccessLayers("broker")
          .whereLayer("diff")
          .mayOnlyAccessLayers(
              "source",
              "diagnostic",
              "bus",
              "colour",
              "rulebook",
              "layout",
              "table",
              "facts",
              "check",
              "chart",
              "report")
          .whereLayer("cli")
          .mayNotBeAccessedByAnyLayer()
          .whereLayer("compiler")
          .mayOnlyBeAccessedByLayers("editor", "cli");

  @ArchTest
  static final ArchRule nobody_but_the_build_makes_tables_or_their_headers =
      noClasses()
          .that()
          .resideOutsideOfPackage("dev.doublet.table")
          .and()
          .doNotHaveFullyQualifiedName(Compiler.class.getName())
          .and()
          .doNotHaveFullyQualifiedName(Build.class.getName())
          .should()
          .dependOnClassesThat()
          .belongToAnyOf(TableWriter.class, TableHeader.class)
          .orShould()
          .callMethod(Lowering.class, "lower", Rulebook.class, Controller.class);

  @ArchTest
  static final ArchRule only_syntax_sees_the_parser_generator_and_the_yaml_library =
      noClasses()
          .that()
          .resideOutsideOfPackages("dev.doublet.syntax", "dev.doublet.grammar")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.antlr..",
              "dev.doublet.grammar..",
              "com.fasterxml.jackson.dataformat..",
              "com.fasterxml.jackson.databind..",
              "org.yaml..");

  @ArchTest
  static final ArchRule only_reports_and_pages_write_json =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              "dev.doublet.syntax", "dev.doublet.report", "dev.doublet.page", "dev.doublet.diff")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("com.fasterxml.jackson.core..");

  @ArchTest
  static final ArchRule only_serve_sees_the_protocol_of_editors =
      noClasses()
          .that()
          .resideOutsideOfPackage("dev.doublet.serve")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.eclipse.lsp4j..", "com.google.gson..");

  @ArchTest
  static final ArchRule only_show_serves_pages =
      noClasses()
          .that()
          .resideOutsideOfPackage("dev.doublet.show")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("com.sun.net.httpserver..");

  @ArchTest
  static final ArchRule only_show_and_what_lies_below_it_joins_a_broker =
      noClasses()
          .that()
          .resideOutsideOfPackages("dev.doublet.broker", "dev.doublet.show")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.eclipse.paho..");

  @ArchTest
  static final ArchRule only_the_command_line_touches_files =
      noClasses()
          .that()
          .resideOutsideOfPackage("dev.doublet.cli")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.nio.file..");

  @ArchTest
  static final ArchRule nothing_but_the_command_line_prints =
      noClasses()
          .that()
          .resideOutsideOfPackage("dev.doublet.cli")
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  @ArchTest
  static final ArchRule nothing_depends_on_clock_or_locale =
      noClasses()
          .should()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .callMethod(String.class, "formatted", Object[].class)
          .orShould()
          .callMethod(String.class, "format", String.class, Object[].class)
          .orShould()
          .callMethod(String.class, "toLowerCase")
          .orShould()
          .callMethod(String.class, "toUpperCase")
          .orShould()
          .dependOnClassesThat()
          .haveFullyQualifiedName("java.util.Date");

  @ArchTest
  static void a_file_of_more_than_400_lines_says_why(JavaClasses all) throws IOException {
    try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
        String text = Files.readString(file);
        if (text.lines().count() > 400) {
          assertThat(text.replaceAll("\\s+(\\* )?", " "))
              .as("%s", file)
              .contains("is long because");
        }
      }
    }
  }
}
