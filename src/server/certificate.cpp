#include "server/certificate.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <openssl/bio.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <array>
#include <memory>
#include <optional>

#include "app/whole_file.h"
#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::size_t kMostPemBytes = 1'048'576;
constexpr long kDay = 86'400;
/// Phones refuse certificates that hold longer than 825 days.
constexpr long kHoldsDays = 800;
constexpr long kRenewedDaysBefore = 30;

template <auto Free>
struct Frees {
  template <class T>
  void operator()(T* what) const {
    Free(what);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Frees<EVP_PKEY_free>>;
using X509Certificate = std::unique_ptr<X509, Frees<X509_free>>;
using Text = std::unique_ptr<BIO, Frees<BIO_free_all>>;

Text text_of(const std::string& pem) { return Text(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size()))); }

std::string taken_from(const Text& text) {
  char* bytes = nullptr;
  const long size = BIO_get_mem_data(text.get(), &bytes);
  return {bytes, static_cast<std::size_t>(size)};
}

Key read_key(const std::string& pem) { return Key(PEM_read_bio_PrivateKey(text_of(pem).get(), nullptr, nullptr, nullptr)); }
X509Certificate read_certificate(const std::string& pem) { return X509Certificate(PEM_read_bio_X509(text_of(pem).get(), nullptr, nullptr, nullptr)); }

std::string pem_of(EVP_PKEY* key) {
  const Text out(BIO_new(BIO_s_mem()));
  FETTLE_ASSERT(PEM_write_bio_PrivateKey(out.get(), key, nullptr, nullptr, 0, nullptr, nullptr) == 1, "a key could not be written");
  return taken_from(out);
}

std::string pem_of(X509* certificate) {
  const Text out(BIO_new(BIO_s_mem()));
  FETTLE_ASSERT(PEM_write_bio_X509(out.get(), certificate) == 1, "a certificate could not be written");
  return taken_from(out);
}

void add_extension(X509* certificate, int sort, const std::string& value) {
  X509V3_CTX context{};
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  X509_EXTENSION* extension = X509V3_EXT_conf_nid(nullptr, &context, sort, value.c_str());
  FETTLE_ASSERT(extension != nullptr, value);
  X509_add_ext(certificate, extension, -1);
  X509_EXTENSION_free(extension);
}

std::string alternative_names(const CertifiedNames& names) {
  std::string out;
  for (const std::string& each : names.names) out += (out.empty() ? "DNS:" : ",DNS:") + each;
  for (const std::string& each : names.addresses) out += (out.empty() ? "IP:" : ",IP:") + each;
  return out;
}

/// A phone that trusts it takes it for an authority; it must not be one for anything but this machine.
std::string constraints(const CertifiedNames& names) {
  std::string out = "critical";
  for (const std::string& each : names.names) out += ",permitted;DNS:" + each;
  for (const std::string& each : names.addresses) {
    const bool six = each.find(':') != std::string::npos;
    out += ",permitted;IP:" + each + (six ? "/ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff" : "/255.255.255.255");
  }
  return out;
}

std::string make_certificate(EVP_PKEY* key, const CertifiedNames& names) {
  const X509Certificate certificate(X509_new());
  X509_set_version(certificate.get(), X509_VERSION_3);
  std::array<unsigned char, 16> serial{};
  FETTLE_ASSERT(RAND_bytes(serial.data(), static_cast<int>(serial.size())) == 1, "no random bytes");
  serial[0] &= 0x7fU;
  BIGNUM* number = BN_bin2bn(serial.data(), static_cast<int>(serial.size()), nullptr);
  BN_to_ASN1_INTEGER(number, X509_get_serialNumber(certificate.get()));
  BN_free(number);
  X509_gmtime_adj(X509_getm_notBefore(certificate.get()), -kDay);  // another machine's clock may be behind
  X509_gmtime_adj(X509_getm_notAfter(certificate.get()), kHoldsDays * kDay);
  X509_set_pubkey(certificate.get(), key);
  X509_NAME* subject = X509_get_subject_name(certificate.get());
  const std::string common = "Fettle";
  X509_NAME_add_entry_by_NID(subject, NID_commonName, MBSTRING_UTF8, static_cast<const unsigned char*>(static_cast<const void*>(common.data())),
                             static_cast<int>(common.size()), -1, 0);
  X509_set_issuer_name(certificate.get(), subject);
  add_extension(certificate.get(), NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  add_extension(certificate.get(), NID_key_usage, "critical,digitalSignature,keyCertSign");
  add_extension(certificate.get(), NID_ext_key_usage, "serverAuth");
  add_extension(certificate.get(), NID_subject_key_identifier, "hash");
  add_extension(certificate.get(), NID_subject_alt_name, alternative_names(names));
  add_extension(certificate.get(), NID_name_constraints, constraints(names));
  FETTLE_ASSERT(X509_sign(certificate.get(), key, EVP_sha256()) > 0, "a certificate could not be signed");
  return pem_of(certificate.get());
}

bool speaks_for(X509* certificate, const CertifiedNames& names) {
  for (const std::string& each : names.names) {
    if (X509_check_host(certificate, each.data(), each.size(), 0, nullptr) != 1) return false;
  }
  for (const std::string& each : names.addresses) {
    if (X509_check_ip_asc(certificate, each.c_str(), 0) != 1) return false;
  }
  return true;
}

bool holds_on(X509* certificate) {
  const std::unique_ptr<ASN1_TIME, Frees<ASN1_TIME_free>> soon(X509_gmtime_adj(nullptr, kRenewedDaysBefore * kDay));
  return ASN1_TIME_compare(X509_get0_notAfter(certificate), soon.get()) > 0;
}

bool write_for_owner_alone(const std::string& path, const std::string& text) {
  const std::string part = path + ".part";
  ::unlink(part.c_str());
  const int file = ::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (file < 0) return false;
  const bool written = ::write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size()) && ::fsync(file) == 0;
  const bool closed = ::close(file) == 0;
  return written && closed && ::rename(part.c_str(), path.c_str()) == 0;
}

/// Only where it is the owner's own folder and nobody else may look in.
bool make_folder_for_owner_alone(const std::string& folder) {
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST) return false;
  struct stat found {};
  return ::lstat(folder.c_str(), &found) == 0 && S_ISDIR(found.st_mode) && found.st_uid == ::geteuid() && ::chmod(folder.c_str(), 0700) == 0;
}

std::string read_if_there(const std::string& path) {
  Problems ignored;
  return read_whole_file(path, kMostPemBytes, ignored).value_or(std::string());
}

}  // namespace

Result<Certificate> own_certificate(const std::string& folder, const CertifiedNames& names) {
  const Problem cannot{"server.cannot_keep_key", {}, {verbatim("folder", folder)}};
  if (!make_folder_for_owner_alone(folder)) return cannot;
  const std::string key_path = folder + "/key.pem";
  const std::string certificate_path = folder + "/certificate.pem";
  Certificate out{read_if_there(certificate_path), read_if_there(key_path)};
  Key key = read_key(out.key);
  if (!key) {
    key.reset(EVP_EC_gen("P-256"));
    FETTLE_ASSERT(key != nullptr, "no key could be made");
    out.key = pem_of(key.get());
    if (!write_for_owner_alone(key_path, out.key)) return cannot;
  }
  const X509Certificate kept = read_certificate(out.certificate);
  if (kept && X509_check_private_key(kept.get(), key.get()) == 1 && speaks_for(kept.get(), names) && holds_on(kept.get())) return out;
  out.certificate = make_certificate(key.get(), names);
  if (!write_for_owner_alone(certificate_path, out.certificate)) return cannot;
  return out;
}

std::string fingerprint_of(const Certificate& certificate) {
  const X509Certificate read = read_certificate(certificate.certificate);
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned int size = 0;
  if (!read || X509_digest(read.get(), EVP_sha256(), bytes.data(), &size) != 1) return {};
  static constexpr std::string_view kDigits = "0123456789ABCDEF";
  std::string out;
  for (unsigned int i = 0; i < size; ++i) {
    if (i > 0) out += ':';
    out += kDigits[bytes.at(i) >> 4U];
    out += kDigits[bytes.at(i) & 15U];
  }
  return out;
}

}  // namespace fettle
