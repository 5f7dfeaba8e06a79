package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.jar.Attributes;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * The launcher on machines unlike ours. Where only its choices count, a script stands in for Java:
 * it prints what it was asked, and makes the archives that it is asked for.
 */
@DisabledOnOs(OS.WINDOWS)
class LauncherTest {
  private static final String NOBODY = "65534";

  private static final String STANDS_IN =
      """
      #!/bin/sh
      for word; do
        case $word in
          -XX:SharedArchiveFile=*) archive=${word#*=} ;;
          -Xshare:dump) dumps=true ;;
        esac
      done
      if [ "${dumps:-false}" = true ]; then
        echo classes >"$archive"
      fi
      printf '<%s>' "$@"
      """;

  /** What the launcher calls, and no Maven. */
  private static final List<String> TOOLS =
      List.of("sh", "readlink", "cksum", "tr", "mkdir", "mv", "rm", "cat", "locale");

  @TempDir Path folder;
  private Path compiler;
  private Path java;

  /** What a run left on its two outputs. */
  private record Ran(int exit, String out, String err) {}

  @BeforeEach
  void checkOut() throws IOException {
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
    compiler = Files.createDirectories(folder.resolve("a yard/compiler"));
    Files.copy(Path.of("doublet"), compiler.resolve("doublet"));
    executable(compiler.resolve("doublet"));
    java = Files.createDirectories(folder.resolve("java"));
    release("17.0.9");
    executable(
        Files.writeString(Files.createDirectories(java.resolve("bin")).resolve("java"), STANDS_IN));
  }

  @Test
  void a_path_with_blanks_behind_two_links_runs_the_compiler() throws Exception {
    jar(System.getProperty("java.class.path"));
    Path first =
        Files.createSymbolicLink(folder.resolve("first"), Path.of("a yard/compiler/doublet"));
    Path bin = Files.createDirectories(folder.resolve("my tools"));
    Path second = Files.createSymbolicLink(bin.resolve("doublet"), Path.of("../first"));
    assertThat(first).isSymbolicLink();
    Ran ran = run(List.of(second.toString(), "--version"), System.getProperty("java.home"));
    assertThat(ran.out).matches("doublet \\S+\\n");
    assertThat(ran.exit).isZero();
  }

  @Test
  void a_java_home_without_java_is_named() throws Exception {
    jar("");
    Ran ran = run(List.of(launcher()), "/nowhere/java");
    assertThat(ran.err)
        .isEqualTo(
            "doublet: JAVA_HOME is /nowhere/java, and no bin/java is there; let it name a Java, or unset it\n");
    assertThat(ran.exit).isEqualTo(2);
  }

  @Test
  void an_older_java_is_refused_with_the_place_where_it_is() throws Exception {
    jar("");
    release("11.0.2");
    Ran ran = run(List.of(launcher()), java.toString());
    assertThat(ran.err)
        .isEqualTo(
            "doublet: this needs Java 17 or later, and the one in "
                + java.toRealPath()
                + " is older; let JAVA_HOME name a newer one\n");
    assertThat(ran.exit).isEqualTo(2);
  }

  @Test
  void without_maven_a_sentence_says_what_to_do() throws Exception {
    Files.writeString(compiler.resolveSibling("pom.xml"), "");
    Ran ran = run(List.of(launcher(), "check"), java.toString());
    assertThat(ran.err)
        .isEqualTo(
            "doublet: the compiler must be built once, and there is no mvn here; install Maven, or take the zip\n");
    assertThat(ran.exit).isEqualTo(2);
  }

  @Test
  void a_zip_without_its_jar_is_not_taken_for_a_checkout() throws Exception {
    Path unpacked = Files.createDirectories(folder.resolve("zip/doublet-0.1.0"));
    Path launcher = Files.copy(Path.of("doublet"), unpacked.resolve("doublet"));
    executable(launcher);
    Ran ran = run(List.of(launcher.toString(), "check"), java.toString());
    assertThat(ran.err).startsWith("doublet: there is no doublet.jar in ").contains("unpack");
    assertThat(ran.exit).isEqualTo(2);
  }

  @Test
  void a_colon_in_the_path_is_named_since_java_would_part_it_there() throws Exception {
    Path odd = Files.createDirectories(folder.resolve("odd:folder/d"));
    Path launcher = Files.copy(Path.of("doublet"), odd.resolve("doublet"));
    executable(launcher);
    Files.writeString(odd.resolve("doublet.jar"), "");
    Ran ran = run(List.of(launcher.toString(), "check"), java.toString());
    assertThat(ran.err).startsWith("doublet: Java takes a colon in a path for the end of it; ");
    assertThat(ran.exit).isEqualTo(2);
  }

  @Test
  void the_archive_is_made_once_for_each_jar() throws Exception {
    Path jar = jar("");
    Ran first = run(List.of(launcher(), "check", "a b.yaml"), java.toString());
    assertThat(first.err).isEqualTo("doublet: preparing faster starts, this once\n");
    Path archive = compiler.resolve("target/classes-17.jsa");
    assertThat(first.out)
        .contains("<-XX:SharedArchiveFile=" + archive.toRealPath() + ">")
        .endsWith("<dev.doublet.cli.Main><check><a b.yaml>");
    assertThat(run(List.of(launcher()), java.toString()).err).isEmpty();

    Files.setLastModifiedTime(jar, FileTime.from(Instant.now().plusSeconds(60)));
    assertThat(run(List.of(launcher()), java.toString()).err).contains("preparing faster starts");
    assertThat(names(compiler.resolve("target"))).containsExactly("classes-17.jsa", "doublet.jar");
  }

  @Test
  void a_checkout_that_nobody_may_write_has_its_archive_in_the_cache_and_once() throws Exception {
    jar("");
    List<String> asOther = asSomebodyWhoMayNotWrite();
    Path cache = Files.createDirectories(folder.resolve("cache"));
    Files.setPosixFilePermissions(cache, PosixFilePermissions.fromString("rwxrwxrwx"));
    Files.setPosixFilePermissions(
        compiler.resolve("target"), PosixFilePermissions.fromString("r-xr-xr-x"));
    try {
      List<String> command = new ArrayList<>(asOther);
      command.add(launcher());
      Ran first = run(command, java.toString());
      assertThat(first.exit).as(first.err).isZero();
      assertThat(first.err).isEqualTo("doublet: preparing faster starts, this once\n");
      List<String> made = names(cache.resolve("doublet"));
      assertThat(made).singleElement().asString().endsWith("-17.jsa");
      Ran second = run(command, java.toString());
      assertThat(second.err).isEmpty();
      assertThat(second.out)
          .contains(
              "<-XX:SharedArchiveFile=" + cache.resolve("doublet").resolve(made.get(0)) + ">");
      assertThat(names(cache.resolve("doublet"))).isEqualTo(made);
      assertThat(names(compiler.resolve("target"))).containsExactly("doublet.jar");
    } finally {
      Files.setPosixFilePermissions(
          compiler.resolve("target"), PosixFilePermissions.fromString("rwxr-xr-x"));
    }
  }

  /** Root may write whatever the bits say, so it becomes somebody else. */
  private static List<String> asSomebodyWhoMayNotWrite() {
    if (!"root".equals(System.getProperty("user.name"))) {
      return List.of();
    }
    Path setpriv = Path.of("/usr/bin/setpriv");
    assumeTrue(Files.isExecutable(setpriv), "root may write everywhere, and setpriv is missing");
    return List.of(
        setpriv.toString(), "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups", "--");
  }

  private String launcher() {
    return compiler.resolve("doublet").toString();
  }

  private void release(String version) throws IOException {
    Files.writeString(java.resolve("release"), "JAVA_VERSION=\"" + version + "\"\n");
  }

  /** A jar that leads to what lies on a class path. */
  private Path jar(String classPath) throws IOException {
    Manifest manifest = new Manifest();
    manifest.getMainAttributes().put(Attributes.Name.MANIFEST_VERSION, "1.0");
    String urls =
        Stream.of(classPath.split(":"))
            .filter(p -> !p.isEmpty())
            .map(p -> Path.of(p).toUri().toString())
            .collect(Collectors.joining(" "));
    manifest.getMainAttributes().put(Attributes.Name.CLASS_PATH, urls);
    Path jar = Files.createDirectories(compiler.resolve("target")).resolve("doublet.jar");
    try (OutputStream out = Files.newOutputStream(jar);
        JarOutputStream made = new JarOutputStream(out, manifest)) {
      made.finish();
    }
    Files.setLastModifiedTime(jar, FileTime.from(Instant.now().minusSeconds(60)));
    return jar;
  }

  private Ran run(List<String> command, String javaHome) throws Exception {
    Path bin = Files.createDirectories(folder.resolve("bin"));
    for (String tool : TOOLS) {
      Path found = Path.of("/usr/bin", tool);
      if (Files.exists(found)) {
        executable(Files.writeString(bin.resolve(tool), "#!/bin/sh\nexec " + found + " \"$@\"\n"));
      }
    }
    ProcessBuilder builder = new ProcessBuilder(command).directory(folder.toFile());
    Map<String, String> variables =
        new TreeMap<>(
            Map.of(
                "PATH", bin.toString(),
                "JAVA_HOME", javaHome,
                "HOME", folder.toString(),
                "XDG_CACHE_HOME", folder.resolve("cache").toString(),
                "LC_ALL", "C.UTF-8"));
    builder.environment().clear();
    builder.environment().putAll(variables);
    Path out = folder.resolve("out.txt");
    Path err = folder.resolve("err.txt");
    Process process = builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
    process.getOutputStream().close();
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).as("ends").isTrue();
    return new Ran(
        process.exitValue(),
        Files.readString(out, StandardCharsets.UTF_8),
        Files.readString(err, StandardCharsets.UTF_8).replaceAll("(?m)^Picked up .*\\n", ""));
  }

  private static void executable(Path file) throws IOException {
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }
}
