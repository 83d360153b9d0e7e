#include "server/server.h"

/// The one name that the program looks up in the module.
extern "C" __attribute__((visibility("default"))) const ohmfolio::ServerModule* ohmfolio_server() {
    static const ohmfolio::ServerModule server{&ohmfolio::serve};
    return &server;
}
