/// All rules of the code book, a header for each subject.
#pragma once

#include "code/bus_rules.h"
#include "code/conductor_rules.h"
#include "code/grounding_rules.h"
#include "code/module_rules.h"
#include "code/overcurrent_rules.h"
#include "code/raceway_rules.h"
#include "code/voltage_rules.h"
