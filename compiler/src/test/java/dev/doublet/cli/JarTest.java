package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The jar that is handed out: whose work is in it, and under which licence. */
@Tag("slow")
class JarTest {
  private static final Path JAR = Path.of("target/doublet.jar");

  @BeforeAll
  static void needsTheJar() {
    assumeTrue(Files.exists(JAR), "the jar is not built: this is a test for mvn verify");
  }

  @Test
  void every_library_in_it_is_there_with_its_licence_and_its_notice() throws Exception {
    try (FileSystem jar = FileSystems.newFileSystem(JAR)) {
      TreeMap<String, Path> libraries = libraries(jar);
      assertThat(libraries).containsKeys("antlr4-runtime", "jackson-core", "picocli", "snakeyaml");
      String ours = texts(jar);
      for (String library : libraries.keySet()) {
        Path licence = jar.getPath("META-INF/licences", library + ".txt");
        assertThat(licence).as("whose work %s is, and under which licence", library).exists();
        try (FileSystem theirs = FileSystems.newFileSystem(libraries.get(library))) {
          for (Path text : texts(theirs.getPath("META-INF"))) {
            assertThat(ours).as("%s of %s", text, library).contains(Files.readString(text).strip());
          }
        }
      }
      assertThat(ours).contains(Files.readString(Path.of("../LICENSE")).strip());
    }
  }

  @Test
  void it_is_under_the_licence_that_the_project_says() throws IOException {
    assertThat(Files.readString(Path.of("../LICENSE")))
        .startsWith("\n                                 Apache License\n")
        .hasSize(11358);
    assertThat(Files.readString(Path.of("../pom.xml"))).contains("<name>Apache-2.0</name>");
  }

  @Test
  void it_says_its_version() throws Exception {
    Process process =
        new ProcessBuilder("java", "-jar", JAR.toString(), "--version")
            .redirectErrorStream(true)
            .start();
    assertThat(new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
        .matches("doublet [0-9]+\\.[0-9]+\\.[0-9]+\n");
    assertThat(process.waitFor()).isZero();
  }

  /** The jars from which the classes in a jar come, by the names of their artefacts. */
  private static TreeMap<String, Path> libraries(FileSystem jar) throws Exception {
    TreeMap<String, Path> libraries = new TreeMap<>();
    try (Stream<Path> walk = Files.walk(jar.getPath("/"))) {
      List<Path> folders =
          walk
              .filter(p -> p.toString().endsWith(".class"))
              .filter(p -> !p.startsWith("/dev/doublet") && !p.startsWith("/META-INF"))
              .collect(Collectors.toMap(Path::getParent, p -> p, (one, other) -> one))
              .values()
              .stream()
              .toList();
      for (Path type : folders) {
        Path library = library(type.toString());
        String name = library.getFileName().toString();
        libraries.put(name.replaceAll("-[0-9].*", ""), library);
      }
    }
    return libraries;
  }

  private static Path library(String type) throws URISyntaxException, IOException {
    URL url = JarTest.class.getResource(type);
    assertThat(url).as("where %s comes from", type).isNotNull();
    String path = url.toString();
    return Path.of(new java.net.URI(path.substring("jar:".length(), path.indexOf('!'))));
  }

  private static String texts(FileSystem jar) throws IOException {
    StringBuilder all = new StringBuilder();
    for (Path text : texts(jar.getPath("META-INF"))) {
      all.append(Files.readString(text));
    }
    return all.toString();
  }

  private static List<Path> texts(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> f.toString().matches(".*(LICENSE|NOTICE).*")).sorted().toList();
    }
  }
}
