// Loaded before the C library, this stops a program at a call of rename or fsync, and says so: GATE
// is the first letter of the call, and AT which of them it is.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static void gate(char call, int *calls) {
  const char *gate = getenv("GATE"), *at = getenv("AT");
  if (gate && at && *gate == call && ++*calls == atoi(at)) {
    static const char said[] = "at the gate\n";
    if (write(STDOUT_FILENO, said, sizeof said - 1) < 0) {
      abort();
    }
    for (;;) {
      pause();
    }
  }
}

int rename(const char *from, const char *to) {
  static int calls;
  gate('r', &calls);
  int (*next)(const char *, const char *);
  *(void **)&next = dlsym(RTLD_NEXT, "rename");
  return next(from, to);
}

int fsync(int file) {
  static int calls;
  gate('f', &calls);
  int (*next)(int);
  *(void **)&next = dlsym(RTLD_NEXT, "fsync");
  return next(file);
}
