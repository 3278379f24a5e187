#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace fettle {

/// A certificate, its chain behind it, and its key, as PEM text.
struct Certificate {
  std::string certificate;
  std::string key;
};

/// Who a certificate speaks for.
struct CertifiedNames {
  std::vector<std::string> names;
  std::vector<std::string> addresses;
};

/// The one kept in this folder, or a new one: an elliptic curve key, signed by itself, which a phone can be told to trust. Made anew (with
/// the same key) when it does not speak for all of these or ends within a month. The folder is for its owner's eyes alone. Problems:
/// server.cannot_keep_key.
[[nodiscard]] Result<Certificate> own_certificate(const std::string& folder, const CertifiedNames& names);

/// SHA-256 of the first certificate, "AB:CD:..."; empty where it cannot be read.
[[nodiscard]] std::string fingerprint_of(const Certificate& certificate);

}  // namespace fettle
