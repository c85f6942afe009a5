/*
 * Simulates a power cut for one folder, as an LD_PRELOAD library: what was written but not yet synced may be lost,
 * land out of order, or land torn at 512-byte sectors, as a disk with a volatile cache may do.
 *
 * Environment: PCUT_FOLDER, real path of the folder under test; PCUT_AT, the count of writes, truncates, syncs and
 * unlinks at which the power goes (0: never); PCUT_SEED, what is lost then; PCUT_COUNTS, file that gets
 * "<operations> <syncs>" at a normal end. Leaves with status 97 after a cut.
 *
 * Model: a file's state at its last sync is durable. Each change since then is kept with its bytes before and after.
 * At the cut all are taken back, newest first, and a random subset is applied again, oldest first. An unlink may be
 * taken back too until the directory is synced. Not modelled: lost renames, lost new names, O_TRUNC, mmap. The
 * "-shm" file of SQLite is left out, because it is rebuilt from the log.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SECTOR 512
#define CUT_STATUS 97

struct change {
  char path[PATH_MAX + 32];
  int is_truncate;
  off_t offset; /* of a write; the new size for a truncate */
  size_t length;
  unsigned char *after;
  unsigned char *before; /* bytes that were there; for a truncate, the tail cut off */
  size_t before_length;
  off_t size_before;
  struct change *older, *newer;
};

struct removal {
  char path[PATH_MAX + 32], grave[PATH_MAX + 32];
  struct removal *next;
};

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static struct change *newest, *oldest;
static struct removal *removals;
static char folder[PATH_MAX];
static size_t folder_length;
static long cut_at, operations, syncs, graves;
static uint64_t random_state;

static ssize_t (*real_pwrite64)(int, const void *, size_t, off_t);
static ssize_t (*real_write)(int, const void *, size_t);
static int (*real_fsync)(int);
static int (*real_fdatasync)(int);
static int (*real_ftruncate64)(int, off_t);
static int (*real_unlink)(const char *);
static int (*real_rename)(const char *, const char *);

/* xorshift64* (Vigna 2016): small, seeded, the same on every machine. */
static uint32_t random_below(uint32_t limit) {
  random_state ^= random_state >> 12;
  random_state ^= random_state << 25;
  random_state ^= random_state >> 27;
  return (uint32_t)((random_state * 2685821657736338717ULL) >> 33) % limit;
}

__attribute__((constructor)) static void prepare(void) {
  real_pwrite64 = dlsym(RTLD_NEXT, "pwrite64");
  real_write = dlsym(RTLD_NEXT, "write");
  real_fsync = dlsym(RTLD_NEXT, "fsync");
  real_fdatasync = dlsym(RTLD_NEXT, "fdatasync");
  real_ftruncate64 = dlsym(RTLD_NEXT, "ftruncate64");
  real_unlink = dlsym(RTLD_NEXT, "unlink");
  real_rename = dlsym(RTLD_NEXT, "rename");
  const char *name = getenv("PCUT_FOLDER");
  if (name) snprintf(folder, sizeof folder, "%s", name);
  folder_length = strlen(folder);
  const char *at = getenv("PCUT_AT");
  cut_at = at ? atol(at) : 0;
  const char *seed = getenv("PCUT_SEED");
  random_state = (seed ? strtoull(seed, 0, 10) : 1) * 0x9E3779B97F4A7C15ULL + 1;
}

__attribute__((destructor)) static void report(void) {
  const char *name = getenv("PCUT_COUNTS");
  FILE *file = name ? fopen(name, "w") : 0;
  if (!file) return;
  fprintf(file, "%ld %ld\n", operations, syncs);
  fclose(file);
}

static int is_ours(const char *path) {
  if (!folder_length || strncmp(path, folder, folder_length) != 0) return 0;
  size_t length = strlen(path);
  return !(length > 4 && strcmp(path + length - 4, "-shm") == 0);
}

/* True when the descriptor is a file, or a directory, of the folder; its path is put in `path`. */
static int path_of(int fd, char *path) {
  char link[64];
  if (!folder_length) return 0;
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  ssize_t length = readlink(link, path, PATH_MAX - 1);
  if (length <= 0) return 0;
  path[length] = 0;
  return is_ours(path);
}

/* Reads what is there now; a write-only descriptor needs one of its own (never a database: SQLite opens for both). */
static size_t read_region(int fd, const char *path, off_t offset, size_t length, unsigned char *into) {
  ssize_t got = pread(fd, into, length, offset);
  if (got < 0 && errno == EBADF) {
    int own = open(path, O_RDONLY);
    got = own < 0 ? 0 : pread(own, into, length, offset);
    if (own >= 0) close(own);
  }
  return got > 0 ? (size_t)got : 0;
}

static struct change *add_change(const char *path) {
  struct change *change = calloc(1, sizeof *change);
  snprintf(change->path, sizeof change->path, "%s", path);
  change->older = newest;
  if (newest) newest->newer = change;
  newest = change;
  if (!oldest) oldest = change;
  return change;
}

static void drop_change(struct change *change) {
  if (change->older) change->older->newer = change->newer; else oldest = change->newer;
  if (change->newer) change->newer->older = change->older; else newest = change->older;
  free(change->after);
  free(change->before);
  free(change);
}

static off_t size_of(int fd) {
  struct stat status;
  return fstat(fd, &status) == 0 ? status.st_size : 0;
}

static void note_write(int fd, const char *path, const void *bytes, size_t length, off_t offset) {
  struct change *change = add_change(path);
  change->offset = offset;
  change->length = length;
  change->size_before = size_of(fd);
  change->after = malloc(length);
  memcpy(change->after, bytes, length);
  change->before = malloc(length);
  change->before_length = read_region(fd, path, offset, length, change->before);
}

static void note_truncate(int fd, const char *path, off_t size) {
  struct change *change = add_change(path);
  change->is_truncate = 1;
  change->offset = size;
  change->size_before = size_of(fd);
  if (size >= change->size_before) return;
  change->before = malloc((size_t)(change->size_before - size));
  change->before_length = read_region(fd, path, size, (size_t)(change->size_before - size), change->before);
}

static void take_back(const struct change *change) {
  int fd = open(change->path, O_RDWR);
  if (fd < 0) return;
  if (change->before_length) real_pwrite64(fd, change->before, change->before_length, change->offset);
  real_ftruncate64(fd, change->size_before);
  close(fd);
}

/* Writes whole sectors of the change; a torn one lacks about half of them. */
static void apply_again(const struct change *change, int torn) {
  int fd = open(change->path, O_RDWR);
  if (fd < 0) return;
  if (change->is_truncate) {
    real_ftruncate64(fd, change->offset);
  } else {
    size_t done = 0;
    while (done < change->length) {
      size_t step = SECTOR - (size_t)((change->offset + (off_t)done) % SECTOR);
      if (step > change->length - done) step = change->length - done;
      if (!torn || random_below(2)) real_pwrite64(fd, change->after + done, step, change->offset + (off_t)done);
      done += step;
    }
  }
  close(fd);
}

static void settle_removals(int all_durable) {
  while (removals) {
    struct removal *removal = removals;
    removals = removal->next;
    if (!all_durable && access(removal->path, F_OK) != 0 && random_below(2)) {
      real_rename(removal->grave, removal->path);
    } else {
      real_unlink(removal->grave);
    }
    free(removal);
  }
}

static void cut_power(void) {
  static const uint32_t keep_percents[] = {0, 30, 50, 70, 95};
  uint32_t keep_percent = keep_percents[random_below(5)];
  for (struct change *change = newest; change; change = change->older) take_back(change);
  for (struct change *change = oldest; change; change = change->newer) {
    int kept = random_below(100) < keep_percent;
    int torn = random_below(4) == 0;
    if (kept || torn) apply_again(change, torn);
  }
  settle_removals(0);
  _exit(CUT_STATUS);
}

/* Every change passes here after it was noted and before it is done. */
static void count_operation(void) {
  operations += 1;
  if (cut_at > 0 && operations >= cut_at) cut_power();
}

static void make_durable(const char *path) {
  struct change *change = newest;
  while (change) {
    struct change *older = change->older;
    if (strcmp(change->path, path) == 0) drop_change(change);
    change = older;
  }
}

static void on_sync(int fd) {
  char path[PATH_MAX];
  if (!path_of(fd, path)) return;
  struct stat status;
  pthread_mutex_lock(&lock);
  count_operation();
  syncs += 1;
  if (fstat(fd, &status) == 0 && S_ISDIR(status.st_mode)) settle_removals(1);
  make_durable(path);
  pthread_mutex_unlock(&lock);
}

ssize_t pwrite64(int fd, const void *bytes, size_t length, off_t offset) {
  char path[PATH_MAX];
  if (!path_of(fd, path)) return real_pwrite64(fd, bytes, length, offset);
  pthread_mutex_lock(&lock);
  note_write(fd, path, bytes, length, offset);
  count_operation();
  ssize_t done = real_pwrite64(fd, bytes, length, offset);
  pthread_mutex_unlock(&lock);
  return done;
}

ssize_t write(int fd, const void *bytes, size_t length) {
  char path[PATH_MAX];
  if (!real_write) prepare();
  if (!path_of(fd, path)) return real_write(fd, bytes, length);
  pthread_mutex_lock(&lock);
  int appends = fcntl(fd, F_GETFL) & O_APPEND;
  note_write(fd, path, bytes, length, appends ? size_of(fd) : lseek(fd, 0, SEEK_CUR));
  count_operation();
  ssize_t done = real_write(fd, bytes, length);
  pthread_mutex_unlock(&lock);
  return done;
}

int ftruncate64(int fd, off_t size) {
  char path[PATH_MAX];
  if (!path_of(fd, path)) return real_ftruncate64(fd, size);
  pthread_mutex_lock(&lock);
  note_truncate(fd, path, size);
  count_operation();
  int done = real_ftruncate64(fd, size);
  pthread_mutex_unlock(&lock);
  return done;
}

int fsync(int fd) {
  on_sync(fd);
  return real_fsync(fd);
}

int fdatasync(int fd) {
  on_sync(fd);
  return real_fdatasync(fd);
}

/* The name goes to a grave beside the folder, from where a cut may bring it back. */
int unlink(const char *name) {
  char path[PATH_MAX];
  if (!folder_length || !realpath(name, path) || !is_ours(path)) return real_unlink(name);
  pthread_mutex_lock(&lock);
  count_operation();
  struct removal *removal = calloc(1, sizeof *removal);
  snprintf(removal->path, sizeof removal->path, "%s", path);
  snprintf(removal->grave, sizeof removal->grave, "%s.grave-%ld-%d", folder, graves++, (int)getpid());
  if (link(path, removal->grave) == 0) {
    for (struct change *change = newest; change; change = change->older) {
      if (strcmp(change->path, path) == 0) snprintf(change->path, sizeof change->path, "%s", removal->grave);
    }
    removal->next = removals;
    removals = removal;
  } else {
    make_durable(path);
    free(removal);
  }
  int done = real_unlink(name);
  pthread_mutex_unlock(&lock);
  return done;
}

/* Unsynced bytes follow their file to its new name. */
int rename(const char *from, const char *to) {
  char old_path[PATH_MAX], new_path[PATH_MAX];
  int ours = folder_length && realpath(from, old_path) && is_ours(old_path);
  int done = real_rename(from, to);
  if (!ours || done != 0 || !realpath(to, new_path)) return done;
  pthread_mutex_lock(&lock);
  make_durable(new_path);
  for (struct change *change = newest; change; change = change->older) {
    if (strcmp(change->path, old_path) == 0) snprintf(change->path, sizeof change->path, "%s", new_path);
  }
  pthread_mutex_unlock(&lock);
  return done;
}
