#pragma once
#include "core/progress/thread_team.h"  // the thread team stands beside the task
