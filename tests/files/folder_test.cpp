// SPDX-License-Identifier: MIT
#include "files/folder.hpp"

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>
#include <unistd.h>

#include <fstream>
#include <iterator>

namespace backfit {
namespace {

namespace fs = std::filesystem;

// A scratch folder of the test's own, removed at the end.
class Folder : public testing::Test {
 protected:
  Folder() { fs::create_directories(scratch_); }
  ~Folder() override { fs::remove_all(scratch_); }

  static std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  static void put(const fs::path& path, const std::string& text) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> list;
    for (const auto& entry : fs::recursive_directory_iterator(scratch_))
      list.push_back(entry.path().lexically_relative(scratch_).generic_string());
    std::sort(list.begin(), list.end());
    return list;
  }

  fs::path scratch_ =
      fs::temp_directory_path() / (std::string("backfit-folder-") +
                                   testing::UnitTest::GetInstance()->current_test_info()->name());
  fs::path target_ = scratch_ / "made";
};

using Names = std::vector<std::string>;

TEST_F(Folder, HoldsWhatWasGivenAndAList) {
  write_folder(target_, {{"a.txt", "one"}, {"parts/b.stl", std::string("\0\xFF", 2)}});
  EXPECT_EQ(text_of(target_ / "a.txt"), "one");
  EXPECT_EQ(text_of(target_ / "parts/b.stl"), std::string("\0\xFF", 2));
  EXPECT_EQ(names(),
            (Names{"made", "made/a.txt", "made/contents.txt", "made/parts", "made/parts/b.stl"}));
}

TEST_F(Folder, MakesTheFoldersAboveIt) {
  write_folder(scratch_ / "x/y/made/", {{"a.txt", "one"}});
  EXPECT_EQ(text_of(scratch_ / "x/y/made/a.txt"), "one");
}

TEST_F(Folder, TakesThePlaceOfItsOwnOlderResult) {
  write_folder(target_, {{"a.txt", "one"}, {"old/b.txt", "two"}});
  EXPECT_FALSE(why_not_replaceable(target_));
  write_folder(target_, {{"a.txt", "three"}});
  EXPECT_EQ(text_of(target_ / "a.txt"), "three");
  EXPECT_EQ(names(), (Names{"made", "made/a.txt", "made/contents.txt"}));
}

TEST_F(Folder, MayBeWhereNothingIsLost) {
  EXPECT_FALSE(why_not_replaceable(target_));
  fs::create_directories(target_);
  EXPECT_FALSE(why_not_replaceable(target_));
  write_folder(target_, {{"a.txt", "one"}, {"b.txt", "two"}});
  fs::remove(target_ / "a.txt");
  EXPECT_FALSE(why_not_replaceable(target_));
}

// Law: whatever the owner put there or changed there, the folder is refused.
TEST_F(Folder, MayNotBeWhereTheOwnerHasSomething) {
  put(scratch_ / "file", "mine");
  EXPECT_TRUE(why_not_replaceable(scratch_ / "file"));
  EXPECT_TRUE(why_not_replaceable(scratch_));
  const FolderContents made{{"a.txt", "one"}, {"parts/b.txt", "two"}};
  write_folder(target_, made);
  const auto refused_after = [&](auto&& change) {
    write_folder(target_, made);
    change();
    const bool refused = why_not_replaceable(target_).has_value();
    fs::remove_all(target_);
    return refused;
  };
  EXPECT_TRUE(refused_after([&] { put(target_ / "mine.txt", ""); }));
  EXPECT_TRUE(refused_after([&] { put(target_ / "parts/deep/mine.txt", ""); }));
  EXPECT_TRUE(refused_after([&] { put(target_ / "a.txt", "One"); }));
  EXPECT_TRUE(refused_after([&] { put(target_ / "a.txt", ""); }));
  EXPECT_TRUE(refused_after([&] { fs::create_symlink("/", target_ / "link"); }));
  EXPECT_TRUE(refused_after([&] { put(target_ / "contents.txt", "a.txt\nparts/b.txt\n"); }));
  EXPECT_TRUE(refused_after([&] { fs::remove(target_ / "contents.txt"); }));
  EXPECT_FALSE(refused_after([] {}));
}

TEST_F(Folder, IsNotMadeThroughALink) {
  fs::create_directories(scratch_ / "elsewhere");
  fs::create_directory_symlink("elsewhere", target_);
  EXPECT_TRUE(why_not_replaceable(target_));
}

TEST_F(Folder, RemovesWhatKilledRunsLeftAndNothingElse) {
  const std::string prefix = ".made.unfinished-";
  put(scratch_ / (prefix + "999999999") / "a.txt", "half");  // above the kernel's largest id
  put(scratch_ / (prefix + std::to_string(::getppid())) / "a.txt", "another run at work");
  put(scratch_ / (prefix + "notes") / "a.txt", "the owner's");
  put(scratch_ / ".other.unfinished-999999999" / "a.txt", "of another folder");
  write_folder(target_, {{"a.txt", "one"}});
  EXPECT_FALSE(fs::exists(scratch_ / (prefix + "999999999")));
  EXPECT_TRUE(fs::exists(scratch_ / (prefix + std::to_string(::getppid()))));
  EXPECT_TRUE(fs::exists(scratch_ / (prefix + "notes")));
  EXPECT_TRUE(fs::exists(scratch_ / ".other.unfinished-999999999"));
}

// Law: when the disk takes no more, the older result stays whole and nothing half made is left.
TEST_F(Folder, StaysTheOldOneWhenTheDiskIsFull) {
  write_folder(target_, {{"a.txt", "one"}});
  rlimit before{};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = signal(SIGXFSZ, SIG_IGN);
  const rlimit small{1000, before.rlim_max};
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
  EXPECT_THROW(write_folder(target_, {{"a.txt", "two"}, {"b.txt", std::string(5000, 'x')}}),
               WorldFailure);
  setrlimit(RLIMIT_FSIZE, &before);
  signal(SIGXFSZ, handler);
  EXPECT_EQ(text_of(target_ / "a.txt"), "one");
  EXPECT_EQ(names(), (Names{"made", "made/a.txt", "made/contents.txt"}));
}

TEST_F(Folder, SaysWhatTheWorldRefuses) {
  put(scratch_ / "file", "mine");
  EXPECT_THROW(write_folder(scratch_ / "file" / "made", {{"a.txt", "one"}}), WorldFailure);
}

// Law: what is handed out of a folder is what was written there, and nothing else of the disk.
TEST_F(Folder, HandsOutWhatItWroteAlone) {
  const fs::path made = scratch_ / "made";
  write_folder(made, {{"sheet.pdf", "paper"}, {"parts/plate.stl", "solid"}});
  put(made / "note.txt", "the owner's");
  put(scratch_ / "secret.txt", "secret");
  EXPECT_EQ(written_names(made), (std::vector<std::string>{"parts/plate.stl", "sheet.pdf"}));
  EXPECT_EQ(written_bytes(made, "parts/plate.stl"), "solid");
  for (const char* name : {"note.txt", "contents.txt", "../secret.txt", "", ".", "parts"}) {
    EXPECT_FALSE(written_bytes(made, name)) << name;
  }
  put(made / "sheet.pdf", "changed");
  EXPECT_FALSE(written_bytes(made, "sheet.pdf"));
  // A list that was tampered with leads nowhere else.
  std::ofstream(made / "contents.txt", std::ios::app) << "0000000000000000 ../secret.txt\n"
                                                      << "0000000000000000 /etc/hostname\n";
  EXPECT_EQ(written_names(made), (std::vector<std::string>{"parts/plate.stl", "sheet.pdf"}));
  EXPECT_EQ(written_names(scratch_ / "nothing"), std::vector<std::string>());
  EXPECT_FALSE(written_bytes(scratch_ / "nothing", "sheet.pdf"));
}

}  // namespace
}  // namespace backfit
