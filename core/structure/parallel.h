#pragma once
#include "core/progress/parallel.h"  // the thread team stands beside the task
