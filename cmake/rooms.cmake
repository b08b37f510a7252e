# SPDX-License-Identifier: MIT
# A room is one folder under src/ with one job: one library, the rooms it may use named after USES.

add_library(backfit_warnings INTERFACE)
target_compile_options(backfit_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wold-style-cast -Werror
  # g++ 12 warns falsely on "literal" + std::string (GCC bug 105651).
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)

# backfit_room(NAME SOURCES a.cpp b.cpp [USES room ...] [LINKS library ...])
function(backfit_room NAME)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES;LINKS" ${ARGN})
  file(GLOB headers CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.hpp)
  add_library(backfit_${NAME} STATIC ${ROOM_SOURCES})
  target_sources(backfit_${NAME} PUBLIC FILE_SET headers TYPE HEADERS
    BASE_DIRS ${PROJECT_SOURCE_DIR}/src FILES ${headers})
  set_target_properties(backfit_${NAME} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
  list(TRANSFORM ROOM_USES PREPEND backfit_)
  target_link_libraries(backfit_${NAME} PUBLIC ${ROOM_USES} PRIVATE backfit_warnings ${ROOM_LINKS})
endfunction()

# backfit_tests(NAME [LINKS library ...]): tests/NAME/*_test.cpp as one program over one room.
function(backfit_tests NAME)
  cmake_parse_arguments(TESTS "" "" "LINKS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${NAME}/*_test.cpp)
  add_executable(${NAME}_test ${sources})
  target_compile_definitions(${NAME}_test PRIVATE BACKFIT_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  target_link_libraries(${NAME}_test PRIVATE backfit_${NAME} backfit_warnings ${TESTS_LINKS}
    GTest::gmock GTest::gtest_main)
  gtest_discover_tests(${NAME}_test TEST_PREFIX ${NAME}. DISCOVERY_TIMEOUT 60)
endfunction()
