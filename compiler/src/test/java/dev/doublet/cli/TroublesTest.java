package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What a machine refuses is a sentence, and names the file. */
class TroublesTest {
  static Stream<Arguments> refusals() {
    return Stream.of(
        Arguments.of(new NoSuchFileException("a"), "a: there is no such file"),
        Arguments.of(
            new UncheckedIOException(new AccessDeniedException("a")),
            "a: this may not be read or written here"),
        Arguments.of(
            new InvalidPathException("a", "odd"),
            "a: no file can have such a name here; where its letters are the reason, say"
                + " LC_ALL=C.UTF-8"),
        Arguments.of(new NotDirectoryException("a"), "a: this is a file, not a folder"),
        Arguments.of(new FileAlreadyExistsException("a"), "a: this is a file, not a folder"),
        Arguments.of(new FileSystemException("a", null, "no room"), "a: no room"),
        Arguments.of(new FileSystemException("a"), "a: it was refused"),
        Arguments.of(new IOException("the line is dead"), "the line is dead"),
        Arguments.of(new IllegalStateException(), "IllegalStateException"));
  }

  @ParameterizedTest
  @MethodSource("refusals")
  void each_has_its_words(Exception refused, String words) {
    assertThat(Troubles.words(refused)).isEqualTo(words);
  }
}
