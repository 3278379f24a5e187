# Warnings and floating-point rules, in one interface target that only our own targets link.
add_library(fettle_rules INTERFACE)

# Dev: optimised enough that the statistical tests are quick, with the assertions of the standard library on.
set(CMAKE_CXX_FLAGS_DEV "-O1 -g1 -D_GLIBCXX_ASSERTIONS" CACHE STRING "flags of the Dev build type" FORCE)

# No fused multiply-add: the same input must print the same digits on every machine.
target_compile_options(fettle_rules INTERFACE
  -ffp-contract=off -fno-fast-math -fno-math-errno
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wfloat-conversion -Wdouble-promotion
  -Wold-style-cast -Wnull-dereference -Wnon-virtual-dtor -Woverloaded-virtual -Wswitch-enum)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(fettle_rules INTERFACE
    -Wduplicated-cond -Wduplicated-branches -Wlogical-op -Wuseless-cast)
endif()
if(FETTLE_WERROR)
  target_compile_options(fettle_rules INTERFACE -Werror)
  # g++ 12 draws false alarms of these kinds on std::variant and std::string at -O1 and above.
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(fettle_rules INTERFACE -Wno-error=maybe-uninitialized -Wno-error=restrict
      -Wno-error=null-dereference -Wno-error=array-bounds -Wno-error=stringop-overflow -Wno-error=stringop-overread)
  endif()
endif()
# Only the rooms are looked at by the sanitizers and counted by the fuzzers; tests are plain code that links them, and compile much quicker so.
# fettle_counted: rooms that meet bytes from outside. The others take values, and counting their every comparison would double their time.
add_library(fettle_watched INTERFACE)
add_library(fettle_counted INTERFACE)
set(FETTLE_ROOMS_OF_VALUES numeric gauging form limits verdict simulate drawing pictures)
if(FETTLE_SANITIZE)
  target_compile_options(fettle_watched INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(fettle_rules INTERFACE -fsanitize=address,undefined)
  if(FETTLE_FUZZERS)
    target_compile_options(fettle_counted INTERFACE -fsanitize=fuzzer-no-link)
  endif()
endif()
# Everything of ours, tests as well: what they inline of the standard library would else be seen on one side only.
if(FETTLE_THREADS)
  target_compile_options(fettle_rules INTERFACE -fsanitize=thread -fno-omit-frame-pointer)
  target_link_options(fettle_rules INTERFACE -fsanitize=thread)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # The network library's fences are ones that the sanitizer does not see; it says so in each file.
    target_compile_options(fettle_rules INTERFACE -Wno-tsan)
  endif()
endif()
