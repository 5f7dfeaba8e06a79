package dev.doublet.cli;

import java.io.File;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;

/** What the machine refused, in words for people. */
final class Troubles {
  /** How the names of files begin that are there only while others are written. */
  private static final String OURS = ".doublet-";

  private Troubles() {}

  /** One sentence about what went wrong. */
  static String words(Exception exception) {
    if (exception instanceof UncheckedIOException wrapped) {
      return words(wrapped.getCause());
    }
    if (exception instanceof InvalidPathException impossible) {
      return impossible.getInput()
          + ": no file can have such a name here; where its letters are the reason, say LC_ALL=C.UTF-8";
    }
    if (exception instanceof NoSuchFileException missing) {
      return missing.getFile() + ": there is no such file";
    }
    if (exception instanceof AccessDeniedException denied) {
      return denied(denied.getFile());
    }
    if (exception instanceof NotDirectoryException
        || exception instanceof FileAlreadyExistsException) {
      return ((FileSystemException) exception).getFile() + ": this is a file, not a folder";
    }
    if (exception instanceof FileSystemException refused) {
      String reason = refused.getReason() == null ? "it was refused" : refused.getReason();
      return refused.getFile() + ": " + reason;
    }
    String message = exception.getMessage();
    return message == null ? exception.getClass().getSimpleName() : message;
  }

  /** Of a file that is written beside others and then moved, nobody knows the name. */
  private static String denied(String file) {
    int folder = file.lastIndexOf(File.separatorChar);
    if (!file.startsWith(OURS, folder + 1)) {
      return file + ": this may not be read or written here";
    }
    return (folder < 0 ? "." : file.substring(0, folder))
        + ": nothing may be written into this folder";
  }
}
