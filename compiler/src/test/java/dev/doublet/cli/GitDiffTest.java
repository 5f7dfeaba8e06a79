package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Revisions are read from git itself, whole or not at all, and nothing of a stranger's runs. */
class GitDiffTest {
  private static final String SHARED =
      """
      colours { red yellow green }
      head searchlight { lamp main shows red, yellow, green }
      """;
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      use "shared/heads.aspects"
      speeds in mph { normal 60  slow 15 }
      form one-head { top }
      imperfect signals read as most restrictive
      cover die-out, die-stuck because "a drill"
      aspect "Clear"    { number 2  allows normal then normal  on one-head show green }
      aspect "Approach" { number 1  allows normal then stop    on one-head show yellow }
      aspect "Stop"     { number 0  allows stop                on one-head show red }
      """;
  private static final String LAYOUT =
      """
      layout: Coalpit Yard
      rulebook: ../books/yard.aspects
      otherwise: most-restrictive
      kinds: {home: {form: one-head, heads: [searchlight], by: aspect-number}}
      controllers:
        yard:
          flash: 4096
          ram: 512
          chains:
            main:
              supply: {volts: 5, amps: 1}
              cable: {awg: 24, metres: 3}
              signals:
              - {name: Y1}
              - {name: Y2}
      """;

  @TempDir private Path folder;
  private ScratchRepository repository;
  private Session session;

  @BeforeEach
  void commit() throws IOException, InterruptedException {
    repository = ScratchRepository.in(folder.resolve("club"));
    repository.write("books/shared/heads.aspects", SHARED);
    repository.write("books/yard.aspects", BOOK);
    repository.write("yard/layout.yaml", LAYOUT);
    repository.commit("Begin");
    repository.git("tag", "first");
    session = new Session(repository.folder());
  }

  private void diff(int code, String... arguments) {
    String[] all = new String[arguments.length + 1];
    all[0] = "diff";
    System.arraycopy(arguments, 0, all, 1, arguments.length);
    assertThat(session.run(all)).as(session.out() + session.err()).isEqualTo(code);
  }

  @Test
  void two_revisions_are_compared_whatever_lies_in_the_work_tree() throws Exception {
    repository.write("books/yard.aspects", BOOK.replace("number 1", "number 5"));
    repository.commit("Renumber");
    repository.write("books/yard.aspects", "rubbish");
    Files.delete(repository.folder().resolve("yard/layout.yaml"));

    diff(0, "first..HEAD");

    assertThat(session.out())
        .contains("books/yard.aspects: aspect \"Approach\" has another number")
        .contains("yard/layout.yaml: signal Y1 and 1 more like it shows something else at value 1")
        .contains("2 files compared");
    diff(0, "first..", "yard");
    assertThat(session.out()).contains("1 file compared").contains("has another number");
    diff(0, "first:yard/layout.yaml", "HEAD:yard/layout.yaml");
    assertThat(session.out()).contains("[answer-changed]");
    diff(2, "first..HEAD", "elsewhere");
    assertThat(session.err()).contains("neither revision has such a file");
  }

  @Test
  void what_a_book_uses_is_read_from_the_same_revision() throws Exception {
    repository.write(
        "books/shared/heads.aspects", SHARED.replace("red, yellow, green", "green, yellow, red"));
    repository.write("books/yard.aspects", BOOK.replace("show green", "show yellow or green"));
    repository.commit("Add a look");
    repository.write("books/shared/heads.aspects", "colours { blue }\n");

    diff(0, "first..HEAD", "books");

    assertThat(session.out()).contains("\"Clear\" looks different").doesNotContain("not-compared");
    repository.git("rm", "-q", "--cached", "books/shared/heads.aspects");
    repository.git("commit", "-q", "-m", "Lose the heads");
    diff(2, "first..HEAD", "books");
    assertThat(session.out()).contains("[not-compared]");
  }

  @Test
  void paths_are_seen_from_where_the_command_runs_and_those_of_a_revision_from_its_root()
      throws Exception {
    repository.write("yard/layout.yaml", LAYOUT.replace("Y2}", "Y2, address: 9}"));
    repository.commit("Move an address");
    session = new Session(repository.folder().resolve("yard"));

    diff(0, "first..HEAD", "layout.yaml");
    assertThat(session.out()).contains("layout.yaml: signal Y2 listens elsewhere");
    diff(0, "first:./layout.yaml", "layout.yaml");
    assertThat(session.out()).contains("layout.yaml: signal Y2 listens elsewhere");
    diff(0, "first:yard", ".");
    assertThat(session.out()).contains("layout.yaml: signal Y2 listens elsewhere");
    diff(0, "first..HEAD", "../books");
    assertThat(session.out()).contains("nothing changed in meaning");
    diff(2, "first..HEAD", "../../elsewhere");
    assertThat(session.err()).contains("outside this repository");
  }

  @Test
  void three_dots_tell_what_a_branch_did_since_it_left() throws Exception {
    repository.git("checkout", "-q", "-b", "branch");
    repository.write("yard/layout.yaml", LAYOUT.replace("Y2}", "Y2, address: 9}"));
    repository.commit("Move an address");
    repository.git("checkout", "-q", "main");
    repository.write("books/yard.aspects", BOOK.replace("number 1", "number 5"));
    repository.commit("Renumber");

    diff(0, "main...branch");
    assertThat(session.out()).contains("listens elsewhere").doesNotContain("another number");
    diff(0, "main..branch");
    assertThat(session.out()).contains("listens elsewhere").contains("another number");
    repository.git("checkout", "-q", "--orphan", "other");
    repository.commit("Begin again");
    diff(2, "main...other");
    assertThat(session.err()).contains("no commit in common");
  }

  @Test
  void files_that_went_and_files_with_another_name_are_told() throws Exception {
    repository.git("mv", "books/yard.aspects", "books/coalpit.aspects");
    repository.git("rm", "-q", "yard/layout.yaml");
    repository.commit("Tidy");

    diff(1, "first..HEAD", "--fail-on", "work");
    assertThat(session.out())
        .contains("file yard/layout.yaml is gone")
        .contains("file books/coalpit.aspects has another name");
    diff(0, "first..HEAD", "books", "--fail-on", "work");
    diff(1, "first..HEAD", "books", "--fail-on", "text");
  }

  @ParameterizedTest
  @ValueSource(strings = {"nowhere..HEAD", "HEAD..nowhere", "nowhere:books", "HEAD^5..HEAD"})
  void a_revision_that_is_not_there_is_an_error(String argument) {
    diff(2, argument, "books");
    assertThat(session.out()).isEmpty();
    assertThat(session.err()).contains("no such revision").doesNotContain("shallow");
  }

  @Test
  void a_revision_that_a_shallow_clone_lacks_is_told_so() throws Exception {
    repository.git("commit", "-q", "--allow-empty", "-m", "later");
    Path clone = folder.resolve("clone");
    repository.git(
        "clone", "-q", "--depth", "1", repository.folder().toUri().toString(), clone.toString());
    Session there = new Session(clone);
    assertThat(there.run("diff", "HEAD~1..HEAD")).isEqualTo(2);
    assertThat(there.err())
        .isEqualTo(
            "doublet: HEAD~1: this repository has no such revision; it is shallow: git fetch"
                + " --unshallow brings the rest\n");
  }

  @Test
  void no_revision_begins_with_a_dash_or_holds_a_line_end() {
    diff(2, "--", "-x..HEAD");
    assertThat(session.err()).contains("no revision can have such a name");
    diff(2, "--", "--output=x:books", "books");
    assertThat(session.err()).contains("no revision can have such a name");
    diff(2, "a\nHEAD..HEAD");
    assertThat(session.out()).isEmpty();
    diff(2, "HEAD:boo\nks", "books");
    assertThat(session.out()).isEmpty();
  }

  @Test
  void outside_a_repository_there_are_no_revisions() throws Exception {
    Path bare = Files.createDirectories(folder.resolve("bare"));
    session = new Session(bare);
    diff(2, "main..HEAD");
    assertThat(session.err()).contains("belongs to no git repository");
    repository.git("clone", "-q", "--bare", ".", bare.toString());
    diff(2, "main..HEAD");
    assertThat(session.err()).contains("a bare one is not read");
  }

  @Test
  void two_revisions_without_dots_are_told_how_they_are_named() {
    diff(2, "first", "main");
    assertThat(session.err())
        .isEqualTo("doublet: first: there is no such file; two revisions in git are named A..B\n");
    diff(2, "first", "books");
    assertThat(session.err()).isEqualTo("doublet: first: there is no such file\n");
  }

  /**
   * Git keeps names as bytes; two that are no UTF-8 read as one, and neither may hide the other.
   */
  @Test
  void no_file_hides_behind_another_whose_name_reads_alike() throws Exception {
    repository.run(
        List.of(
            "sh",
            "-c",
            "book=$(git rev-parse HEAD:books/yard.aspects)"
                + " && tree=$(printf '100644 blob %s\\ta\\376.aspects\\n100644 blob %s\\ta\\377.aspects\\n'"
                + " $book $book | git mktree)"
                + " && git tag alike $(git commit-tree -m Alike $tree)"),
        Map.of());
    diff(2, "first..alike");
    assertThat(session.out()).isEmpty();
    assertThat(session.err()).contains("alike: two of its files have names");
  }

  @Test
  void links_and_repositories_within_are_no_files() throws Exception {
    Path link = repository.folder().resolve("books/link.aspects");
    Files.createSymbolicLink(link, Path.of("/etc/passwd"));
    Files.delete(repository.folder().resolve("books/shared/heads.aspects"));
    Files.createSymbolicLink(
        repository.folder().resolve("books/shared/heads.aspects"), Path.of("../yard.aspects"));
    repository.git(
        "update-index",
        "--add",
        "--cacheinfo",
        "160000," + repository.git("rev-parse", "HEAD").strip() + ",books/inner");
    repository.git("add", "books/link.aspects", "books/shared/heads.aspects");
    repository.git("commit", "-q", "-m", "Link");

    diff(2, "first..HEAD", "books");
    assertThat(session.out())
        .contains("file books/link.aspects was not compared")
        .contains("file books/yard.aspects was not compared")
        .doesNotContain("root:");
    diff(2, "HEAD:books/inner", "books/yard.aspects");
    assertThat(session.out()).contains("[not-compared]");
  }

  /** What git would run for its own diff, and for objects that are missing. */
  @Test
  void nothing_of_a_strangers_configuration_runs() throws Exception {
    Path ran = folder.resolve("ran");
    String command = folder.resolve("evil").toString();
    Path evil = Files.writeString(Path.of(command), "#!/bin/sh\ntouch '" + ran + "'\n");
    assertThat(evil.toFile().setExecutable(true)).isTrue();
    repository.write(".gitattributes", "* diff=evil filter=evil\n");
    repository.write("books/yard.aspects", BOOK.replace("number 1", "number 5"));
    repository.commit("Renumber");
    Path hooks = Files.createDirectories(folder.resolve("hooks"));
    for (String hook : List.of("post-checkout", "reference-transaction", "pre-auto-gc")) {
      Path script = Files.writeString(hooks.resolve(hook), "#!/bin/sh\nexec " + command + "\n");
      assertThat(script.toFile().setExecutable(true)).isTrue();
    }
    Map.ofEntries(
            Map.entry("diff.evil.textconv", command),
            Map.entry("diff.evil.command", command),
            Map.entry("diff.external", command),
            Map.entry("filter.evil.smudge", command),
            Map.entry("alias.cat-file", "!" + command),
            Map.entry("alias.merge-base", "!" + command),
            Map.entry("core.fsmonitor", command),
            Map.entry("core.pager", command),
            Map.entry("pager.cat-file", command),
            Map.entry("core.sshCommand", command),
            Map.entry("core.hooksPath", hooks.toString()),
            Map.entry("core.editor", command),
            Map.entry("credential.helper", "!" + command),
            Map.entry("extensions.partialClone", "origin"),
            Map.entry("remote.origin.promisor", "true"),
            Map.entry("remote.origin.url", "ext::" + command),
            Map.entry("protocol.ext.allow", "always"),
            Map.entry("protocol.allow", "always"))
        .forEach(
            (key, value) -> {
              try {
                repository.git("config", key, value);
              } catch (IOException | InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    Files.deleteIfExists(ran);
    // The trap is set: git's own diff springs it.
    repository.attempt(List.of("git", "diff", "first", "HEAD"), Map.of());
    assertThat(ran).exists();
    Files.delete(ran);

    diff(0, "first...HEAD");
    assertThat(session.out()).contains("has another number");
    assertThat(ran).doesNotExist();

    // An object that the clone lacks is not fetched.
    String blob = blob("HEAD:books/yard.aspects");
    Files.delete(
        repository
            .folder()
            .resolve(".git/objects/" + blob.substring(0, 2) + "/" + blob.substring(2)));
    repository.attempt(List.of("git", "cat-file", "-e", blob), Map.of());
    assertThat(ran).exists();
    Files.delete(ran);
    diff(2, "first..HEAD");
    assertThat(session.out() + session.err()).contains("not-compared");
    assertThat(ran).doesNotExist();
  }

  private String blob(String name) throws IOException {
    try (GitObjects objects = GitObjects.open(repository.folder())) {
      return objects.find(name).orElseThrow().id();
    }
  }

  /** A folder that looks like a repository's inside must not become the one that is asked. */
  @Test
  void a_repository_in_the_work_tree_is_not_asked() throws Exception {
    Path ran = folder.resolve("ran");
    repository.git("init", "-q", "--bare", "yard/bare");
    repository.write(
        "yard/bare/config",
        "[core]\n\trepositoryformatversion = 0\n\tbare = true\n\tfsmonitor = \"touch '"
            + ran
            + "'\"\n");
    session = new Session(repository.folder().resolve("yard/bare"));

    diff(0, "first..HEAD");
    assertThat(session.out()).contains("nothing changed in meaning");
    assertThat(ran).doesNotExist();
  }

  @Test
  void a_replaced_object_is_not_believed() throws Exception {
    repository.write("books/yard.aspects", BOOK.replace("number 1", "number 5"));
    repository.commit("Renumber");
    repository.git("replace", "HEAD", "first");

    diff(0, "first..HEAD");
    assertThat(session.out()).contains("has another number");
  }

  /** The tool that git calls is this class path, so that no package has to be built first. */
  private String tool() throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    Path script = folder.resolve("doublet");
    Files.writeString(
        script,
        "#!/bin/sh\nexec '"
            + java
            + "' -XX:TieredStopAtLevel=1 -cp '"
            + System.getProperty("java.class.path")
            + "' dev.doublet.cli.Main \"$@\"\n");
    assertThat(script.toFile().setExecutable(true)).isTrue();
    return script.toString();
  }

  @Tag("slow")
  @Test
  void git_can_call_it_as_a_difftool() throws Exception {
    String alone = SHARED + BOOK.replace("use \"shared/heads.aspects\"\n", "");
    repository.write("alone.aspects", alone);
    repository.commit("Stand alone");
    repository.write("alone.aspects", alone.replace("number 1", "number 5"));
    repository.commit("Renumber");

    String said =
        repository.git("difftool", "--no-prompt", "-x", tool() + " diff", "HEAD~1", "HEAD");
    assertThat(said)
        .contains("aspect \"Approach\" has another number")
        .contains("[number-changed]");
    said = repository.git("difftool", "--no-prompt", "-x", tool() + " diff", "HEAD~2", "HEAD~1");
    assertThat(said).contains("is new").contains("[file-added]");
  }

  /** It is given one file alone, so a book that uses others says what to do instead. */
  @Tag("slow")
  @Test
  void as_a_difftool_a_book_that_uses_others_is_told_how_to_be_compared() throws Exception {
    repository.write("books/yard.aspects", BOOK.replace("number 1", "number 5"));
    repository.commit("Renumber");

    String said =
        repository.git(
            "difftool", "--no-prompt", "-x", tool() + " diff", "HEAD~1", "HEAD", "--", "books");
    assertThat(said).contains("[not-compared]").contains("diff A..B PATH");
  }

  @Tag("slow")
  @Test
  void git_can_show_tables_by_it() throws Exception {
    assertThat(session.run("build", "yard", "--output", "out")).isZero();
    repository.write(".gitattributes", "*.bin diff=doublet\n");
    repository.git("config", "diff.doublet.textconv", tool() + " inspect --textconv");
    repository.commit("Build");
    repository.write("yard/layout.yaml", LAYOUT.replace("Y2}", "Y2, address: 9}"));
    assertThat(session.run("build", "yard", "--output", "out")).isZero();

    String said = repository.git("diff", "--", "out/yard.bin");
    assertThat(said).contains("\n-").contains("\n+").doesNotContain("Binary files");
    repository.commit("Move an address");
    Files.writeString(repository.folder().resolve("out/yard.bin"), "no table");
    assertThat(repository.git("diff", "--", "out/yard.bin")).contains("+refused: ");
    assertThat(session.run("inspect", "out/yard.bin")).isEqualTo(1);
  }

  @Test
  void a_submodule_at_another_commit_is_never_no_change() throws Exception {
    String one = "1".repeat(40);
    String other = "2".repeat(40);
    submodule(one);
    diff(Main.COULD_NOT_RUN, "first..HEAD");
    assertThat(session.out())
        .contains("submodule books/club was not compared")
        .contains("commit " + one)
        .contains("[not-compared]");
    submodule(other);
    diff(Main.COULD_NOT_RUN, "HEAD~1..HEAD", "books");
    assertThat(session.out()).contains("commit " + one).contains("commit " + other);
    diff(Main.COULD_NOT_RUN, "HEAD~1..HEAD", "books/club");
    diff(Main.COULD_NOT_RUN, "HEAD~1:books", "HEAD:books");
    diff(Main.CLEAN, "HEAD~1..HEAD", "yard");
    repository.write("books/yard.aspects", BOOK + "\n# More.\n");
    repository.commit("Say more");
    diff(Main.CLEAN, "HEAD~1..HEAD");
    // Nobody knows which commit lies on the disk.
    diff(Main.COULD_NOT_RUN, "HEAD:books", "books");
  }

  private void submodule(String commit) throws Exception {
    Files.createDirectories(repository.folder().resolve("books/club"));
    repository.git("update-index", "--add", "--cacheinfo", "160000," + commit + ",books/club");
    repository.git("commit", "-q", "-m", "Take a commit of the club's books");
  }

  @Test
  void programs_are_told_of_files_from_the_top_of_the_checkout() throws Exception {
    repository.write("yard/layout.yaml", LAYOUT.replace("flash: 4096", "flash: much"));
    Session inside = new Session(repository.folder().resolve("yard"));
    inside.run("check", "layout.yaml", "--as", "sarif");
    assertThat(inside.out())
        .contains("\"uri\" : \"yard/layout.yaml\"")
        .contains("\"uriBaseId\" : \"%SRCROOT%\"");
    inside.run("check", "layout.yaml", "--as", "annotations");
    assertThat(inside.out()).contains("file=yard/layout.yaml,");
    inside.run("check", "layout.yaml", "--as", "json");
    assertThat(inside.out()).contains("\"layout.yaml\"");
  }
}
