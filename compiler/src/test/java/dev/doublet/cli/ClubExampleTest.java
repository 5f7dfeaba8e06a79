package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The club's repository does what it promises: the commands of its workflow and of its hooks are
 * run on three requests in a scratch repository, and what a reviewer would see is compared with
 * committed files, which {@code -Ddoublet.update=true} writes anew. The forge is a script of ours
 * that keeps comments in a folder.
 */
@Tag("slow")
class ClubExampleTest {
  private static final Path CLUB = Path.of("../examples/club");
  private static final Path SEEN = Path.of("src/test/resources/club");
  private static final String BOOK = "rulebooks/larkfield.aspects";

  @TempDir private Path folder;
  private ScratchRepository repository;

  @BeforeEach
  void clone_the_club() throws IOException, InterruptedException {
    repository = ScratchRepository.in(folder.resolve("club"));
    try (Stream<Path> files = Files.walk(CLUB)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        repository.write(CLUB.relativize(file).toString(), Files.readString(file));
      }
    }
    repository.commit("Begin");
    tool("tools/doublet/doublet", doublet());
    tool("../forge/gh", forge());
  }

  private static String doublet() {
    return "#!/bin/sh\nexec '"
        + Path.of(System.getProperty("java.home"), "bin", "java")
        + "' -XX:TieredStopAtLevel=1 -cp '"
        + System.getProperty("java.class.path")
        + "' dev.doublet.cli.Main \"$@\"\n";
  }

  /** Lists the id of a kept comment that begins with the mark, and takes one or replaces it. */
  private String forge() {
    String kept = folder.resolve("forge").toString();
    return "#!/bin/sh\nkept='"
        + kept
        + "'\ncase \"$*\" in\n"
        + "*--jq*) if head -n 1 \"$kept/comment\" 2>/dev/null | grep -q '^<!-- doublet diff -->$';"
        + " then echo 7; fi;;\n"
        + "'api --method POST repos/club/signals/issues/5/comments -F body=@comment.md')"
        + " cp comment.md \"$kept/comment\"; echo posted >> \"$kept/log\";;\n"
        + "'api --method PATCH repos/club/signals/issues/comments/7 -F body=@comment.md')"
        + " cp comment.md \"$kept/comment\"; echo replaced >> \"$kept/log\";;\n"
        + "*) echo \"what is $*\" >&2; exit 1;;\nesac\n";
  }

  private void tool(String path, String script) throws IOException {
    repository.write(path, script);
    assertThat(repository.folder().resolve(path).toFile().setExecutable(true)).isTrue();
  }

  @Test
  void a_harmless_rename_is_text_only() throws Exception {
    request(BOOK, "aspect \"Approach\" {\n", "aspect \"Caution\" {\n  was \"Approach\"\n");
    compare("rename");
  }

  @Test
  void a_twin_is_an_error_and_changes_what_crews_may_do() throws Exception {
    request(
        BOOK,
        "aspect \"Slow Clear\" {",
        "aspect \"Slow Approach\" {\n  rule 5  number 4\n"
            + "  indicates \"Proceed at slow speed, prepared to stop at the next signal.\"\n"
            + "  allows slow then stop\n  on home     show yellow\n  on junction show red over yellow\n"
            + "}\naspect \"Slow Clear\" {");
    compare("twin");
  }

  @Test
  void a_moved_address_is_work_and_its_comment_is_kept_up_to_date() throws Exception {
    request("layouts/south/layout.yaml", "kind: home, address: 12", "kind: home, address: 14");
    compare("address");
    String first = Files.readString(folder.resolve("forge/comment"));

    request("layouts/south/layout.yaml", "kind: home, address: 14", "kind: home, address: 15");
    workflow();

    assertThat(Files.readString(folder.resolve("forge/log"))).isEqualTo("posted\nreplaced\n");
    String second = Files.readString(folder.resolve("forge/comment"));
    assertThat(fingerprint(second)).isNotEqualTo(fingerprint(first));
  }

  private static String fingerprint(String comment) {
    return comment.lines().filter(l -> l.startsWith("<!-- fingerprint ")).findFirst().orElseThrow();
  }

  @Test
  void the_club_follows_its_own_hooks() throws Exception {
    for (ScratchRepository.Ran ran : hooks().values()) {
      assertThat(ran.code()).as(ran.said()).isZero();
    }
  }

  private void request(String file, String text, String other) throws Exception {
    String old = Files.readString(repository.folder().resolve(file));
    assertThat(old).contains(text);
    if (repository.git("branch", "--list", "request").isEmpty()) {
      repository.git("checkout", "-q", "-b", "request");
    }
    repository.write(file, old.replace(text, other));
    repository.commit("Change " + file);
  }

  private void compare(String name) throws Exception {
    StringBuilder seen = new StringBuilder();
    workflow().forEach((step, ran) -> say(seen, step, ran));
    seen.append("findings: ").append(rules()).append('\n');
    hooks()
        .forEach(
            (hook, ran) ->
                seen.append(hook).append(" exits with ").append(ran.code()).append('\n'));
    same(SEEN.resolve(name + ".txt"), seen.toString());
    same(SEEN.resolve(name + ".comment.md"), Files.readString(folder.resolve("forge/comment")));
  }

  private static void say(StringBuilder seen, String step, ScratchRepository.Ran ran) {
    seen.append(step).append(" exits with ").append(ran.code()).append('\n');
    ran.said().lines().forEach(line -> seen.append("  ").append(line).append('\n'));
  }

  /** Which findings the forge is handed. */
  private String rules() throws IOException {
    JsonNode sarif =
        new ObjectMapper().readTree(repository.folder().resolve("signals.sarif").toFile());
    return sarif.at("/runs/0/results").findValuesAsText("ruleId").toString();
  }

  /** What each command of the workflow printed; a step that fails ends the run. */
  private Map<String, ScratchRepository.Ran> workflow() throws Exception {
    Path paths = folder.resolve("paths");
    Files.writeString(paths, "");
    Map<String, String> environment =
        Map.of(
            "BASE", repository.git("rev-parse", "main").strip(),
            "NUMBER", "5",
            "REPOSITORY", "club/signals",
            "GITHUB_WORKSPACE", repository.folder().toString(),
            "GITHUB_PATH", paths.toString());
    JsonNode steps =
        new YAMLMapper()
            .readTree(CLUB.resolve(".github/workflows/signals.yml").toFile())
            .at("/jobs/signals/steps");
    Map<String, ScratchRepository.Ran> all = new TreeMap<>();
    int number = 1;
    for (JsonNode step : steps) {
      if (step.has("run")) {
        ScratchRepository.Ran ran = shell(step.get("run").asText(), paths, environment);
        all.put(number++ + " " + step.get("name").asText(), ran);
        if (ran.code() != 0) {
          break;
        }
      }
    }
    assertThat(all).hasSize(5);
    return all;
  }

  private Map<String, ScratchRepository.Ran> hooks() throws Exception {
    Path paths = folder.resolve("paths");
    Files.writeString(paths, repository.folder().resolve("tools/doublet") + "\n");
    JsonNode hooks =
        new YAMLMapper()
            .readTree(CLUB.resolve(".pre-commit-config.yaml").toFile())
            .at("/repos/0/hooks");
    Map<String, ScratchRepository.Ran> all = new TreeMap<>();
    for (JsonNode hook : hooks) {
      assertThat(hook.get("language").asText()).isEqualTo("system");
      all.put(hook.get("id").asText(), shell(hook.get("entry").asText(), paths, Map.of()));
    }
    assertThat(all).hasSize(2);
    return all;
  }

  /** As the forge's runner does: with {@code -e}, and with the paths that earlier steps added. */
  private ScratchRepository.Ran shell(String script, Path paths, Map<String, String> environment)
      throws Exception {
    Map<String, String> all = new TreeMap<>(environment);
    String added = String.join(":", Files.readAllLines(paths));
    all.put("PATH", added + ":" + folder.resolve("forge") + ":" + System.getenv("PATH"));
    return repository.attempt(List.of("bash", "-e", "-o", "pipefail", "-c", script), all);
  }

  private static void same(Path file, String actual) throws IOException {
    if (Boolean.getBoolean("doublet.update")) {
      assertThat(System.getenv("CI")).as("goldens are not updated where CI is set").isNull();
      Files.createDirectories(SEEN);
      Files.writeString(file, actual);
    }
    assertThat(actual).isEqualTo(Files.readString(file));
  }
}
