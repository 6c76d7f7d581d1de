# The Debian packages that a goal needs: it installs by itself what is missing. Debian 13 has no ruby-icalendar.
DEBIAN       := $(shell sed -n 's/^VERSION_ID="\([0-9]*\)"$$/\1/p' /etc/os-release 2>/dev/null)
PKG_demo     := gcc libc6-dev libcurl4-openssl-dev libexpat1-dev libjansson-dev libmicrohttpd-dev libzip-dev tzdata
PKG_check    := $(PKG_demo) libcmocka-dev libcjson-dev locales python3 python3-icalendar python3-dateutil nodejs node-ajv units valgrind python3-stl \
                libgts-bin lowdown man-db groff g++ libc-bin pkgconf radicale xandikos apache2-utils openssl chromium fonts-dejavu-core poppler-utils \
                khal calcurse $(if $(filter 12,$(DEBIAN)),ruby ruby-icalendar) $(if $(shell command -v npm),,npm)
PKG_quick    := $(PKG_demo) libcmocka-dev libcjson-dev python3
PKG_golden   := $(PKG_demo)
PKG_bench    := $(PKG_demo) libcmocka-dev python3 python3-stl
PKG_lint     := $(PKG_demo) libcmocka-dev libcjson-dev python3 clang-format clang-tidy
PKG_format   := clang-format
PKG_fuzz     := $(PKG_demo) libcmocka-dev clang libclang-rt-dev
PKG_coverage := $(PKG_check) gcovr
PKG_mutants  := $(PKG_check)
PKG_deps     := $(PKG_check)
PKG_man      := lowdown
PKG_install  := $(PKG_demo) lowdown
PKG_deb      := $(PKG_install) build-essential debhelper git pkgconf
