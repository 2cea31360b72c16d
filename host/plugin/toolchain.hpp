// What the compiler says of itself: the one place that asks it.
#pragma once

#include <boost/version.hpp>

// C++ objects cross the border of a plugin, so that both sides must come from one compiler generation.
#define VATWRIGHT_TEXT_OF(x) #x
#define VATWRIGHT_TEXT(x) VATWRIGHT_TEXT_OF(x)
#if defined(__clang__)
#define VATWRIGHT_COMPILER "clang " VATWRIGHT_TEXT(__clang_major__)
#else
#define VATWRIGHT_COMPILER "gcc " VATWRIGHT_TEXT(__GNUC__)
#endif
#ifdef _GLIBCXX_ASSERTIONS
#define VATWRIGHT_ASSERTIONS ", assertions"
#else
#define VATWRIGHT_ASSERTIONS ""
#endif

#ifndef __has_feature
#define VATWRIGHT_HAS_FEATURE(x) 0
#else
#define VATWRIGHT_HAS_FEATURE(x) __has_feature(x)
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__) || VATWRIGHT_HAS_FEATURE(address_sanitizer) || \
    VATWRIGHT_HAS_FEATURE(thread_sanitizer) || VATWRIGHT_HAS_FEATURE(memory_sanitizer)
#define VATWRIGHT_SANITIZED true
#else
#define VATWRIGHT_SANITIZED false
#endif

namespace vatwright {

inline constexpr char plugin_toolchain[] =
    VATWRIGHT_COMPILER ", C++ " VATWRIGHT_TEXT(__cplusplus) ", Boost " BOOST_LIB_VERSION VATWRIGHT_ASSERTIONS;

// Under a sanitizer everything takes ten times as long, and crashes are its own affair.
inline constexpr bool sanitized = VATWRIGHT_SANITIZED;

}  // namespace vatwright
