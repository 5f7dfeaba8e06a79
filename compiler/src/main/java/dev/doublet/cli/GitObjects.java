package dev.doublet.cli;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The objects of a git repository, read through one {@code git cat-file --batch}. The repository
 * may be a stranger's: only plumbing that runs nothing is called, on the repository that is named
 * and no other that lies in its work tree, with no configuration but the repository's own, without
 * replacements, and with no way to fetch what is missing.
 */
final class GitObjects implements AutoCloseable {
  private static final int LONGEST_LINE = 1 << 16;
  private static final int MOST_COMPLAINTS = 4_096;
  private static final String NULL_DEVICE = "/dev/null";

  private final Path repository;
  private final Process process;
  private final InputStream answers;
  private final OutputStream questions;
  private final ByteArrayOutputStream complaints = new ByteArrayOutputStream();

  /**
   * An object.
   *
   * @param id its hash
   * @param type "commit", "tree", "blob" or "tag"
   * @param bytes what it holds; of a very large one, more than any text has
   */
  record GitObject(String id, String type, byte[] bytes) {}

  private GitObjects(Path repository, Process process) {
    this.repository = repository;
    this.process = process;
    this.answers = process.getInputStream();
    this.questions = process.getOutputStream();
    Thread listening = new Thread(this::listen, "complaints of git");
    listening.setDaemon(true);
    listening.start();
  }

  /**
   * Opens the repository of a checkout.
   *
   * @param checkout the folder with {@code .git} in it
   */
  static GitObjects open(Path checkout) throws IOException {
    Path repository = checkout.resolve(".git");
    if (!Files.exists(repository)) {
      throw new FileSystemException(
          "git",
          null,
          "this folder belongs to no git repository with a work tree; a bare one is not read");
    }
    return new GitObjects(repository, git(repository, "cat-file", "--batch"));
  }

  /** True where the repository was cloned without all of its history. */
  boolean areShallow() {
    return Files.exists(repository.resolve("shallow"));
  }

  private static Process git(Path repository, String... arguments) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                "git",
                "--no-pager",
                "--git-dir=" + repository,
                "-c",
                "protocol.allow=never",
                "-c",
                "core.fsmonitor=false",
                "-c",
                "core.hooksPath=" + NULL_DEVICE));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    Map<String, String> environment = builder.environment();
    environment.keySet().removeIf(name -> name.startsWith("GIT_"));
    environment.putAll(
        Map.of(
            "GIT_CONFIG_NOSYSTEM", "1",
            "GIT_CONFIG_GLOBAL", NULL_DEVICE,
            "GIT_ATTR_NOSYSTEM", "1",
            "GIT_NO_REPLACE_OBJECTS", "1",
            "GIT_NO_LAZY_FETCH", "1",
            "GIT_ALLOW_PROTOCOL", "none",
            "GIT_TERMINAL_PROMPT", "0",
            "GIT_OPTIONAL_LOCKS", "0",
            "LC_ALL", "C"));
    try {
      return builder.start();
    } catch (IOException e) {
      throw new FileSystemException(
          "git", null, "this program is not to be found, and revisions need it");
    }
  }

  private void listen() {
    try (InputStream said = process.getErrorStream()) {
      byte[] part = new byte[1024];
      for (int count = said.read(part); count >= 0; count = said.read(part)) {
        synchronized (complaints) {
          complaints.write(
              part, 0, Math.min(count, Math.max(0, MOST_COMPLAINTS - complaints.size())));
        }
      }
    } catch (IOException closed) {
      // Nobody waits for more.
    }
  }

  /**
   * An object by a name that git knows.
   *
   * @return empty when there is none of that name, or more than one
   */
  Optional<GitObject> find(String name) throws IOException {
    if (name.indexOf('\n') >= 0 || name.indexOf('\0') >= 0) {
      return Optional.empty();
    }
    try {
      questions.write((name + "\n").getBytes(StandardCharsets.UTF_8));
      questions.flush();
      String line = line();
      String[] head = line.split(" ");
      boolean none = head.length < 3 || !head[head.length - 1].matches("[0-9]+");
      if (none) {
        return Optional.empty();
      }
      long size = Long.parseLong(head[2]);
      byte[] bytes = answers.readNBytes((int) Math.min(size, Utf8.MOST_BYTES + 1));
      answers.skipNBytes(size - bytes.length + 1);
      return Optional.of(new GitObject(head[0], head[1], bytes));
    } catch (IOException e) {
      throw broken();
    }
  }

  private String line() throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    for (int next = answers.read(); next != '\n'; next = answers.read()) {
      if (next < 0 || line.size() > LONGEST_LINE) {
        throw new EOFException();
      }
      line.write(next);
    }
    return line.toString(StandardCharsets.UTF_8);
  }

  private FileSystemException broken() {
    synchronized (complaints) {
      String said = complaints.toString(StandardCharsets.UTF_8).strip();
      return new FileSystemException(
          "git",
          null,
          said.isEmpty() ? "it stopped without a word" : said.lines().findFirst().orElse(said));
    }
  }

  /**
   * The commit from which two went apart.
   *
   * @param one its hash
   * @param other its hash
   */
  Optional<String> mergeBase(String one, String other) throws IOException {
    Process asked = git(repository, "merge-base", one, other);
    asked.getOutputStream().close();
    String found =
        new String(asked.getInputStream().readNBytes(LONGEST_LINE), StandardCharsets.UTF_8);
    try {
      return asked.waitFor() == 0 ? found.lines().findFirst() : Optional.empty();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new FileSystemException("git", null, "it was interrupted");
    }
  }

  @Override
  public void close() {
    process.destroy();
  }
}
