/// All rules of the code book, a header for each subject.
#pragma once

#include "code/array_current_rules.h"
#include "code/array_disconnect_rules.h"
#include "code/array_grounding_rules.h"
#include "code/array_safety_rules.h"
#include "code/array_wiring_rules.h"
#include "code/backup_rules.h"
#include "code/bus_rules.h"
#include "code/conductor_rules.h"
#include "code/grounding_rules.h"
#include "code/module_rules.h"
#include "code/overcurrent_rules.h"
#include "code/raceway_rules.h"
#include "code/rapid_shutdown_rules.h"
#include "code/string_fuse_rules.h"
#include "code/string_rules.h"
#include "code/voltage_rules.h"
