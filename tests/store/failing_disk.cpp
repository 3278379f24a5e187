#include "store/failing_disk.h"

#include <new>

namespace fettle {
namespace {

/// SQLite gives the room; the real file stands behind ours.
struct File {
  sqlite3_file base;
  sqlite3_file* real;
  const char* name;  ///< lives as long as the file is open
};

File& file_of(sqlite3_file* file) { return *static_cast<File*>(static_cast<void*>(file)); }
sqlite3_file* real_of(sqlite3_file* file) { return file_of(file).real; }
DiskWatcher* watcher_of(sqlite3_file* file) { return file_of(file).name == nullptr ? nullptr : the_disk().watcher(); }

int close_file(sqlite3_file* file) { return real_of(file)->pMethods->xClose(real_of(file)); }
int read_file(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
  const int code = the_disk().next_read();
  return code != SQLITE_OK ? code : real_of(file)->pMethods->xRead(real_of(file), to, size, at);
}
int write_file(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
  const int code = the_disk().next_write();
  if (DiskWatcher* watcher = watcher_of(file)) {
    watcher->writes(file_of(file).name, {static_cast<const char*>(from), static_cast<std::size_t>(size)}, static_cast<std::size_t>(at));
  }
  return code != SQLITE_OK ? code : real_of(file)->pMethods->xWrite(real_of(file), from, size, at);
}
int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  const int code = the_disk().next_write();
  if (DiskWatcher* watcher = watcher_of(file)) watcher->truncates(file_of(file).name, static_cast<std::size_t>(size));
  return code != SQLITE_OK ? code : real_of(file)->pMethods->xTruncate(real_of(file), size);
}
int sync_file(sqlite3_file* file, int) {
  const int code = the_disk().next_write();
  if (DiskWatcher* watcher = watcher_of(file)) watcher->waits_for_disk(file_of(file).name);
  return code;
}
int size_of_file(sqlite3_file* file, sqlite3_int64* size) { return real_of(file)->pMethods->xFileSize(real_of(file), size); }
int lock_file(sqlite3_file* file, int level) { return real_of(file)->pMethods->xLock(real_of(file), level); }
int unlock_file(sqlite3_file* file, int level) { return real_of(file)->pMethods->xUnlock(real_of(file), level); }
int reserved(sqlite3_file* file, int* out) { return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out); }
int control(sqlite3_file* file, int what, void* argument) { return real_of(file)->pMethods->xFileControl(real_of(file), what, argument); }
int sector(sqlite3_file* file) { return real_of(file)->pMethods->xSectorSize(real_of(file)); }
int traits(sqlite3_file* file) { return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file)); }
int map_shared(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
  return real_of(file)->pMethods->xShmMap(real_of(file), page, size, extend, out);
}
int lock_shared(sqlite3_file* file, int at, int count, int flags) { return real_of(file)->pMethods->xShmLock(real_of(file), at, count, flags); }
void barrier(sqlite3_file* file) { real_of(file)->pMethods->xShmBarrier(real_of(file)); }
int unmap_shared(sqlite3_file* file, int remove) { return real_of(file)->pMethods->xShmUnmap(real_of(file), remove); }

const sqlite3_io_methods kMethods = {2,           close_file, read_file,   write_file, truncate_file, sync_file,  size_of_file,
                                     lock_file,   unlock_file, reserved,   control,    sector,        traits,     map_shared,
                                     lock_shared, barrier,    unmap_shared, nullptr,   nullptr};

sqlite3_vfs* real_disk() {
  static sqlite3_vfs* const kReal = sqlite3_vfs_find("unix");
  return kReal;
}

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
  File& ours = file_of(file);
  ours.base.pMethods = nullptr;
  ours.name = name;
  ours.real = static_cast<sqlite3_file*>(static_cast<void*>(&ours + 1));
  const int code = real_disk()->xOpen(real_disk(), name, ours.real, flags, out);
  if (ours.real->pMethods != nullptr) ours.base.pMethods = &kMethods;
  return code;
}

int remove_file(sqlite3_vfs*, const char* name, int sync) {
  if (the_disk().watcher() != nullptr) the_disk().watcher()->removes(name);
  return real_disk()->xDelete(real_disk(), name, sync);
}

sqlite3_vfs our_disk() {
  sqlite3_vfs disk = *real_disk();
  disk.pNext = nullptr;
  disk.zName = "failing";
  disk.szOsFile = static_cast<int>(sizeof(File)) + real_disk()->szOsFile;
  disk.xOpen = open_file;
  disk.xDelete = remove_file;
  return disk;
}

}  // namespace

void FailingDisk::fail_writing(long nth, int code, Lasts lasts) {
  calm();
  nth_ = nth;
  code_ = code;
  lasts_ = lasts;
}

void FailingDisk::fail_reading() {
  calm();
  reading_fails_ = true;
}

void FailingDisk::calm() {
  writes_ = 0;
  nth_ = 0;
  reading_fails_ = false;
  failed_ = false;
}

int FailingDisk::next_write() {
  const long write = ++writes_;
  const bool fails = nth_ > 0 && (write == nth_ || (write > nth_ && lasts_ == Lasts::until_calm));
  if (!fails) return SQLITE_OK;
  failed_ = true;
  return code_;
}

int FailingDisk::next_read() {
  if (!reading_fails_) return SQLITE_OK;
  failed_ = true;
  return SQLITE_IOERR_READ;
}

FailingDisk& the_disk() {
  static FailingDisk disk;
  static sqlite3_vfs vfs = our_disk();
  static const bool kInstalled = sqlite3_vfs_register(&vfs, 1) == SQLITE_OK;
  if (!kInstalled) throw std::bad_alloc();
  return disk;
}

}  // namespace fettle
