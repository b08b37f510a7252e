// SPDX-License-Identifier: MIT
// Law: a save changes the bytes that were seen, keeps the file's manners, and nothing else.
#include "workbench/open_file.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace backfit {
namespace {

namespace fs = std::filesystem;

class OpenFileTest : public testing::Test {
 protected:
  void SetUp() override {
    const std::string name = testing::UnitTest::GetInstance()->current_test_info()->name();
    folder_ = fs::path(testing::TempDir()) / ("open-file-" + name);
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  fs::path write(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return folder_ / name;
  }
  std::string bytes(const fs::path& path) const {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  std::size_t entries() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }
  fs::path folder_;
};

TEST_F(OpenFileTest, SavesOverWhatWasSeen) {
  const OpenFile file(write("a.toml", "x = 1\n"));
  const FileState seen = file.on_disk();
  EXPECT_EQ(seen.text, "x = 1\n");
  const auto stamp = file.save("x = 2\n", seen.stamp);
  ASSERT_TRUE(stamp);
  EXPECT_EQ(bytes(file.path()), "x = 2\n");
  EXPECT_EQ(file.on_disk().stamp, *stamp);
  EXPECT_EQ(entries(), 1U);
}

TEST_F(OpenFileTest, WritesNothingOverWhatWasNotSeen) {
  const OpenFile file(write("a.toml", "x = 1\n"));
  const FileState seen = file.on_disk();
  write("a.toml", "x = 3\n");  // another editor
  EXPECT_FALSE(file.save("x = 2\n", seen.stamp));
  EXPECT_EQ(bytes(file.path()), "x = 3\n");
  fs::remove(file.path());
  EXPECT_FALSE(file.save("x = 2\n", seen.stamp));
  EXPECT_FALSE(fs::exists(file.path()));
}

TEST_F(OpenFileTest, KeepsLineEndsAndByteOrderMark) {
  const std::string old = "\xEF\xBB\xBFx = 1\r\ny = 2\r\n";
  const OpenFile file(write("a.toml", old));
  const FileState seen = file.on_disk();
  EXPECT_EQ(seen.text, "x = 1\ny = 2\n");
  ASSERT_TRUE(file.save("x = 1\ny = 2\n", seen.stamp));
  EXPECT_EQ(bytes(file.path()), old);
}

TEST_F(OpenFileTest, KeepsRightsAndLinks) {
  const fs::path real = write("real.toml", "x = 1\n");
  fs::permissions(real, fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("real.toml", folder_ / "a.toml");
  const OpenFile file(folder_ / "a.toml");
  ASSERT_TRUE(file.save("x = 2\n", file.on_disk().stamp));
  EXPECT_TRUE(fs::is_symlink(folder_ / "a.toml"));
  EXPECT_EQ(bytes(real), "x = 2\n");
  EXPECT_EQ(fs::status(real).permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(OpenFileTest, HasNoTextWhereThereIsNone) {
  EXPECT_EQ(OpenFile(folder_ / "none.toml").on_disk().stamp, "");
  EXPECT_EQ(OpenFile(folder_).on_disk().stamp, "");
  EXPECT_EQ(OpenFile(write("b.toml", "\xFF\xFE")).on_disk().stamp, "");
}

}  // namespace
}  // namespace backfit
