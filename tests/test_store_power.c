/* Loss of power at any moment: a VFS of SQLite in memory that keeps, at the cut, only what was synced, and
 * of the rest what chance keeps. Files: writes since the last sync may be lost, in any choice. Folder: a
 * new name is sure once its file was synced, a deletion once the folder was. */
#include "check.h"

#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

#include "clench/store.h"

enum { FILES = 4, BYTES = 1 << 16, WRITES = 512 };

typedef struct Disk {
    char *bytes; /* [BYTES] */
    long size;
    bool there;
} Disk;

/* A write (of at most a sector's worth in one piece, as the pager sends them), or a truncation. */
typedef struct Write {
    long at, size;
    char *bytes; /* NULL: truncation to `at` */
} Write;

typedef struct Named {
    char name[64];
    Disk now, sure;
    bool fresh; /* now is a new file of that name, sure (if there) the deleted one before it */
    Write write[WRITES];
    int write_count;
} Named;

static struct {
    Named file[FILES];
    long left; /* operations until the power goes; below 0: it is gone */
    unsigned chance;
} disk;

static unsigned dice(void)
{
    disk.chance =
        disk.chance * 1664525u + 1013904223u; /* Numerical Recipes' generator, from memory */
    return disk.chance >> 16;
}

static bool powered(void) { return disk.left > 0 && disk.left-- > 0; }

static Named *named(const char *name, bool make)
{
    Named *room = NULL;
    for (int i = 0; i < FILES; i++) {
        if (strcmp(disk.file[i].name, name) == 0) return &disk.file[i];
        if (!disk.file[i].name[0] && !room) room = &disk.file[i];
    }
    if (!make) return NULL;
    assert_non_null(room);
    assert_true(strlen(name) < sizeof room->name);
    snprintf(room->name, sizeof room->name, "%s", name);
    room->now.bytes = calloc(1, BYTES);
    room->sure.bytes = calloc(1, BYTES);
    return room;
}

static void apply(Disk *d, const Write *w)
{
    if (!w->bytes) {
        if (w->at < d->size) memset(d->bytes + w->at, 0, (size_t)(d->size - w->at));
        d->size = w->at;
        return;
    }
    memcpy(d->bytes + w->at, w->bytes, (size_t)w->size);
    if (w->at + w->size > d->size) d->size = w->at + w->size;
}

static void writes_drop(Named *n)
{
    for (int i = 0; i < n->write_count; i++) free(n->write[i].bytes);
    n->write_count = 0;
}

static void empty(Disk *d)
{
    memset(d->bytes, 0, BYTES);
    d->size = 0;
}

static void folder_sync(void)
{
    for (int i = 0; i < FILES; i++) {
        Named *const n = &disk.file[i];
        if (!n->name[0]) continue;
        if (n->fresh || !n->now.there) empty(&n->sure);
        n->fresh = false;
        n->sure.there = n->now.there;
    }
}

static void file_back(Named *n)
{
    const bool folder = dice() & 1; /* what was not synced of the folder is there */
    if (folder && (n->fresh || !n->now.there)) empty(&n->sure);
    if (folder || !n->fresh)
        for (int w = 0; w < n->write_count; w++)
            if (dice() & 1) apply(&n->sure, &n->write[w]);
    writes_drop(n);
    if (folder) n->sure.there = n->now.there;
    if (!n->sure.there) empty(&n->sure);
    n->fresh = false;
    n->now.size = n->sure.size;
    n->now.there = n->sure.there;
    memcpy(n->now.bytes, n->sure.bytes, BYTES);
}

/* What is found when the power is back. */
static void power_back(unsigned chance)
{
    disk.chance = chance;
    for (int i = 0; i < FILES; i++)
        if (disk.file[i].name[0]) file_back(&disk.file[i]);
    disk.left = 1000000000;
}

static void disk_clear(void)
{
    for (int i = 0; i < FILES; i++) {
        writes_drop(&disk.file[i]);
        free(disk.file[i].now.bytes);
        free(disk.file[i].sure.bytes);
    }
    memset(&disk, 0, sizeof disk);
    disk.left = 1000000000;
}

/* ---- the methods ---- */

typedef struct Handle {
    sqlite3_file base;
    Named *file;
} Handle;

static Named *file_of(sqlite3_file *file) { return ((Handle *)file)->file; }

static int on_close(sqlite3_file *file)
{
    (void)file;
    return SQLITE_OK;
}

static int on_read(sqlite3_file *file, void *out, int count, sqlite3_int64 at)
{
    const Disk *const d = &file_of(file)->now;
    const long left = at < d->size ? d->size - (long)at : 0, take = left < count ? left : count;
    memset(out, 0, (size_t)count);
    memcpy(out, d->bytes + at, (size_t)take);
    return take < count ? SQLITE_IOERR_SHORT_READ : SQLITE_OK;
}

static int change(Named *n, long at, long size, const void *bytes)
{
    if (!powered()) return SQLITE_IOERR_WRITE;
    if (at + size > BYTES) return SQLITE_FULL;
    assert_true(n->write_count < WRITES);
    Write *const w = &n->write[n->write_count++];
    *w = (Write){.at = at, .size = size, .bytes = bytes ? malloc((size_t)size + 1) : NULL};
    if (bytes) memcpy(w->bytes, bytes, (size_t)size);
    apply(&n->now, w);
    return SQLITE_OK;
}

static int on_write(sqlite3_file *file, const void *bytes, int count, sqlite3_int64 at)
{
    return change(file_of(file), (long)at, count, bytes);
}

static int on_truncate(sqlite3_file *file, sqlite3_int64 size)
{
    return change(file_of(file), (long)size, 0, NULL);
}

static int on_sync(sqlite3_file *file, int flags)
{
    (void)flags;
    Named *const n = file_of(file);
    if (!powered()) return SQLITE_IOERR_FSYNC;
    /* as SQLite's own unix VFS does for a new journal */
    if (n->fresh) folder_sync();
    for (int i = 0; i < n->write_count; i++) apply(&n->sure, &n->write[i]);
    writes_drop(n);
    return SQLITE_OK;
}

static int on_size(sqlite3_file *file, sqlite3_int64 *size)
{
    *size = file_of(file)->now.size;
    return SQLITE_OK;
}

static int on_lock(sqlite3_file *file, int kind)
{
    (void)file;
    (void)kind;
    return SQLITE_OK;
}

static int on_reserved(sqlite3_file *file, int *out)
{
    (void)file;
    *out = 0;
    return SQLITE_OK;
}

static int on_control(sqlite3_file *file, int op, void *argument)
{
    (void)file;
    (void)op;
    (void)argument;
    return SQLITE_NOTFOUND;
}

static int on_sector(sqlite3_file *file)
{
    (void)file;
    return 4096;
}

static int on_traits(sqlite3_file *file)
{
    (void)file;
    return 0;
}

static const sqlite3_io_methods methods = {.iVersion = 1,
                                           .xClose = on_close,
                                           .xRead = on_read,
                                           .xWrite = on_write,
                                           .xTruncate = on_truncate,
                                           .xSync = on_sync,
                                           .xFileSize = on_size,
                                           .xLock = on_lock,
                                           .xUnlock = on_lock,
                                           .xCheckReservedLock = on_reserved,
                                           .xFileControl = on_control,
                                           .xSectorSize = on_sector,
                                           .xDeviceCharacteristics = on_traits};

static int on_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *file, int flags, int *out)
{
    (void)vfs;
    Handle *const h = (Handle *)file;
    *h = (Handle){0};
    Named *const n = named(name ? name : "temporary", true);
    if (!n->now.there && !(flags & SQLITE_OPEN_CREATE)) return SQLITE_CANTOPEN;
    if (!n->now.there && !powered()) return SQLITE_CANTOPEN;
    if (!n->now.there) n->fresh = true;
    n->now.there = true;
    if (out) *out = flags;
    *h = (Handle){.base = {&methods}, .file = n};
    return SQLITE_OK;
}

static int on_delete(sqlite3_vfs *vfs, const char *name, int sync)
{
    (void)vfs;
    Named *const n = named(name, false);
    if (!n || !n->now.there) return SQLITE_IOERR_DELETE_NOENT;
    if (!powered()) return SQLITE_IOERR_DELETE;
    n->now.there = false;
    n->fresh = false;
    empty(&n->now);
    /* its bytes stay on the disk until the folder forgets the name */
    writes_drop(n);
    if (sync && !powered()) return SQLITE_IOERR_DIR_FSYNC;
    if (sync) folder_sync();
    return SQLITE_OK;
}

static int on_access(sqlite3_vfs *vfs, const char *name, int flags, int *out)
{
    (void)vfs;
    (void)flags;
    const Named *const n = named(name, false);
    *out = n && n->now.there;
    return SQLITE_OK;
}

static int on_path(sqlite3_vfs *vfs, const char *name, int size, char *out)
{
    (void)vfs;
    snprintf(out, (size_t)size, "%s", name);
    return SQLITE_OK;
}

static int on_random(sqlite3_vfs *vfs, int size, char *out)
{
    (void)vfs;
    for (int i = 0; i < size; i++) out[i] = (char)dice();
    return size;
}

static int on_time(sqlite3_vfs *vfs, double *days)
{
    (void)vfs;
    *days = 2463000.5;
    return SQLITE_OK;
}

static int on_sleep(sqlite3_vfs *vfs, int microseconds)
{
    (void)vfs;
    return microseconds;
}

static sqlite3_vfs power = {.iVersion = 1,
                            .szOsFile = sizeof(Handle),
                            .mxPathname = 60,
                            .zName = "power",
                            .xOpen = on_open,
                            .xDelete = on_delete,
                            .xAccess = on_access,
                            .xFullPathname = on_path,
                            .xRandomness = on_random,
                            .xSleep = on_sleep,
                            .xCurrentTime = on_time};

/* ---- the log on that disk ---- */

/* No file of that name is on the real disk. */
static const char path[] = "no-such-folder-power.db";
enum { RECORDS = 6 };

/* Adds records until the power goes; the number that was acknowledged. */
static int write_log(void)
{
    StoreLog *log = NULL;
    Error err;
    int told = 0;
    if (store_log_open(path, true, &log, &err) != STATUS_OK) return 0;
    for (; told < RECORDS; told++) {
        char id[32], body[3000] = "";
        snprintf(id, sizeof id, "%d", told);
        memset(body, 'a' + told, sizeof body - 1 - 400 * (size_t)told);
        StoreRecord r = {.id = id, .kind = "reading", .at = "now", .body = body};
        if (store_log_add(log, &r, 1, &err) != STATUS_OK) break;
    }
    store_log_close(log);
    return told;
}

static void check_log(int told, long cut, unsigned chance)
{
    StoreLog *log = NULL;
    StoreChain chain;
    Error err = {0};
    check_status(store_log_open(path, true, &log, &err), STATUS_OK, &err);
    check_status(store_log_verify(log, NULL, &chain, &err), STATUS_OK, &err);
    if (chain.broken || chain.count < told || chain.count > told + 1)
        fail_msg(
            "power lost after %ld operations, chance %u: %d acknowledged, %ld there, broken %ld",
            cut, chance, told, chain.count, chain.broken);
    store_log_close(log);
}

/* Every operation of making the log and adding six records, 12 throws of the dice each. */
static void test_no_loss_of_power_loses_a_record(void **state)
{
    (void)state;
    long cuts = 0;
    disk_clear();
    assert_int_equal(write_log(), RECORDS);
    const long whole = 1000000000 - disk.left;
    assert_true(whole > 60);
    for (long cut = 1; cut <= whole; cut++)
        for (unsigned chance = 1; chance <= 12; chance++, cuts++) {
            disk_clear();
            disk.left = cut;
            const int told = write_log();
            power_back(chance * 2654435761u);
            check_log(told, cut, chance);
        }
    disk_clear();
    print_message("%ld cuts of power, %ld operations\n", cuts, whole);
}

/* The same disk under SQLite as given: what it loses shows that the disk is as unkind as it says. */
static long lost_with(const char *pragma)
{
    long lost = 0;
    for (long cut = 1; cut <= 200; cut++)
        for (unsigned chance = 1; chance <= 12; chance++) {
            sqlite3 *db;
            sqlite3_stmt *s;
            long told = 0, there = 0;
            disk_clear();
            disk.left = cut;
            if (sqlite3_open(path, &db) == SQLITE_OK &&
                sqlite3_exec(db, pragma, 0, 0, 0) == SQLITE_OK &&
                sqlite3_exec(db, "CREATE TABLE t (a INTEGER PRIMARY KEY, b)", 0, 0, 0) == SQLITE_OK)
                while (told < RECORDS &&
                       sqlite3_exec(db, "INSERT INTO t (b) VALUES (zeroblob(2000))", 0, 0, 0) ==
                           SQLITE_OK)
                    told++;
            sqlite3_close(db);
            power_back(chance * 2654435761u);
            assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
            if (sqlite3_prepare_v2(db, "SELECT count(*) FROM t", -1, &s, NULL) == SQLITE_OK) {
                if (sqlite3_step(s) == SQLITE_ROW) there = (long)sqlite3_column_int64(s, 0);
                sqlite3_finalize(s);
            }
            sqlite3_close(db);
            lost += there < told;
        }
    disk_clear();
    return lost;
}

static void test_the_disk_is_unkind(void **state)
{
    (void)state;
    const long off = lost_with("PRAGMA synchronous = OFF"),
               full = lost_with("PRAGMA synchronous = FULL"),
               extra = lost_with("PRAGMA synchronous = EXTRA");
    print_message("cuts that lost an acknowledged row: OFF %ld, FULL %ld, EXTRA %ld\n", off, full,
                  extra);
    assert_true(off > 0);
    assert_true(full > 0); /* the journal comes back: why db.c asks for EXTRA */
    assert_int_equal(extra, 0);
}

int main(void)
{
    sqlite3_vfs_register(&power, 1);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_loss_of_power_loses_a_record),
        cmocka_unit_test(test_the_disk_is_unkind),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
