#pragma once
// One line on the terminal that says what is being done and for how long, while it takes longer than a moment. Nothing
// at all where standard error is no terminal.
#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace teetally {

class Progress {
 public:
  Progress();
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void stage(const std::string& name);  // as in --stats
  void end();                           // takes the line away; nothing is shown from then on

 private:
  void show();  // until the end

  std::mutex changing_;
  std::condition_variable changed_;
  std::string words_;
  bool ended_ = false;
  std::thread thread_;
};

}  // namespace teetally
