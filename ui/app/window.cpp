#include "app/window.hpp"

#define GLFW_INCLUDE_NONE
#include <GL/gl.h>
#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_impl_glfw.h>
#include <imgui_impl_opengl3.h>

#include <cmath>

#include "app/scene.hpp"
#include "kit/canvas.hpp"
#include "simulator/simulator.hpp"

namespace podrate::ui {
namespace {

constexpr double kFrameS = 1.0 / 20.0;  // while playing
constexpr double kLiveS = 0.25;         // a live machine may fall silent without an event
constexpr double kIdleS = 3600.0;       // while paused: sleep until something happens
constexpr int kFramesAfterEvent = 3;    // Dear ImGui settles hover and release over two more frames
constexpr int kLeastWidth = 800;
constexpr int kLeastHeight = 480;

std::string last_error;

struct Keys {
    Session* session = nullptr;
    bool closed_help = false;  // by the key pressed last
};

void on_error(int code, const char* words) {
    last_error = std::string(words) + " (GLFW " + std::to_string(code) + ")";
}

Action action_of(int key, int mods) {
    const bool shift = (mods & GLFW_MOD_SHIFT) != 0;
    switch (key) {
        case GLFW_KEY_SPACE: return Action::play_or_pause;
        case GLFW_KEY_LEFT: return shift ? Action::back_5_min : Action::back_30_s;
        case GLFW_KEY_RIGHT: return shift ? Action::on_5_min : Action::on_30_s;
        case GLFW_KEY_UP: return Action::faster;
        case GLFW_KEY_DOWN: return Action::slower;
        case GLFW_KEY_HOME: return Action::to_start;
        case GLFW_KEY_END: return Action::to_end;
        case GLFW_KEY_TAB:
        case GLFW_KEY_M: return Action::next_machine;
        case GLFW_KEY_N: return Action::day_or_night;
        case GLFW_KEY_L: return Action::other_language;
        case GLFW_KEY_U: return Action::other_units;
        case GLFW_KEY_F1: return Action::help;
        case GLFW_KEY_LEFT_SHIFT:
        case GLFW_KEY_RIGHT_SHIFT:
        case GLFW_KEY_LEFT_CONTROL:
        case GLFW_KEY_RIGHT_CONTROL:
        case GLFW_KEY_LEFT_ALT:
        case GLFW_KEY_RIGHT_ALT: return Action::none;
        case GLFW_KEY_Q:
        case GLFW_KEY_ESCAPE: return Action::quit;
        default: return Action::other_key;
    }
}

SimulatorKey simulator_key_of(int key) {
    if (key >= GLFW_KEY_0 && key <= GLFW_KEY_9)
        return static_cast<SimulatorKey>(static_cast<int>(SimulatorKey::digit_0) + key - GLFW_KEY_0);
    if (key >= GLFW_KEY_KP_0 && key <= GLFW_KEY_KP_9)
        return simulator_key_of(key - GLFW_KEY_KP_0 + GLFW_KEY_0);
    switch (key) {
        case GLFW_KEY_UP: return SimulatorKey::up;
        case GLFW_KEY_DOWN: return SimulatorKey::down;
        case GLFW_KEY_LEFT: return SimulatorKey::left;
        case GLFW_KEY_RIGHT: return SimulatorKey::right;
        case GLFW_KEY_SPACE: return SimulatorKey::space;
        case GLFW_KEY_T: return SimulatorKey::letter_t;
        case GLFW_KEY_P: return SimulatorKey::letter_p;
        case GLFW_KEY_S: return SimulatorKey::letter_s;
        case GLFW_KEY_PAGE_UP: return SimulatorKey::page_up;
        case GLFW_KEY_PAGE_DOWN: return SimulatorKey::page_down;
        case GLFW_KEY_TAB: return SimulatorKey::tab;
        default: return SimulatorKey::none;
    }
}

// False where the key is none of the simulator's, or has something else to do first.
bool order_simulator(Session& session, int key, int pressed) {
    if (session.simulator() == nullptr || session.cautions_up() || session.help_up()) return false;
    const SimulatorKey meant = simulator_key_of(key);
    const bool held = pressed == GLFW_REPEAT;
    if (meant == SimulatorKey::none) return false;
    // A key that is held down goes on changing the speed and does nothing else anew.
    if (!held || meant == SimulatorKey::up || meant == SimulatorKey::down)
        session.simulator()->take(simulator_order_of(meant));
    return true;
}

void on_key(GLFWwindow* window, int key, int, int pressed, int mods) {
    if (pressed == GLFW_RELEASE) return;
    Keys& keys = *static_cast<Keys*>(glfwGetWindowUserPointer(window));
    if (order_simulator(*keys.session, key, pressed)) return;
    keys.closed_help = keys.session->help_up();
    keys.session->apply(action_of(key, mods));
}

// A question mark lies elsewhere on each keyboard. The key that has just closed the help does not open it.
void on_character(GLFWwindow* window, unsigned character) {
    const Keys& keys = *static_cast<Keys*>(glfwGetWindowUserPointer(window));
    if (character == '?' && !keys.closed_help) keys.session->apply(Action::help);
}

// Owns GLFW, the window and Dear ImGui's context; undoes what it did.
class Screen {
  public:
    Screen() = default;
    ~Screen() {
        if (imgui_) {
            ImGui_ImplOpenGL3_Shutdown();
            ImGui_ImplGlfw_Shutdown();
            ImGui::DestroyContext();
        }
        if (window_ != nullptr) glfwDestroyWindow(window_);
        if (glfw_) glfwTerminate();
    }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    bool open(Session& session, const WindowSize& size) {
        glfwSetErrorCallback(on_error);
        glfw_ = glfwInit() == GLFW_TRUE;
        if (!glfw_) return false;
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
        window_ = glfwCreateWindow(size.width_px, size.height_px, "Podrate", nullptr, nullptr);
        if (window_ == nullptr) return false;
        glfwSetWindowSizeLimits(window_, kLeastWidth, kLeastHeight, GLFW_DONT_CARE, GLFW_DONT_CARE);
        glfwMakeContextCurrent(window_);
        glfwSwapInterval(0);
        keys_.session = &session;
        glfwSetWindowUserPointer(window_, &keys_);
        glfwSetKeyCallback(window_, on_key);
        glfwSetCharCallback(window_, on_character);
        IMGUI_CHECKVERSION();
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui_ImplGlfw_InitForOpenGL(window_, true);
        ImGui_ImplOpenGL3_Init("#version 130");
        imgui_ = true;
        return true;
    }

    void draw(Session& session) {
        int width = 0;
        int height = 0;
        glfwGetFramebufferSize(window_, &width, &height);
        if (width == 0 || height == 0) return;
        fit_fonts(scene_unit(session, static_cast<float>(width), static_cast<float>(height)));
        ImGui_ImplOpenGL3_NewFrame();
        ImGui_ImplGlfw_NewFrame();
        ImGui::NewFrame();
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        draw_scene(session, fonts_, size.x, size.y, true);
        ImGui::Render();
        glViewport(0, 0, width, height);
        const Rgb ground = session.palette().ground;
        glClearColor(static_cast<float>(ground.r) / 255.0F, static_cast<float>(ground.g) / 255.0F,
                     static_cast<float>(ground.b) / 255.0F, 1.0F);
        glClear(GL_COLOR_BUFFER_BIT);
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glfwSwapBuffers(window_);
        const std::string title = session.title();
        if (title != title_) glfwSetWindowTitle(window_, title.c_str());
        title_ = title;
    }

    [[nodiscard]] WindowSize size() const {
        WindowSize size;
        glfwGetWindowSize(window_, &size.width_px, &size.height_px);
        return size;
    }

    [[nodiscard]] bool closed() const { return glfwWindowShouldClose(window_) == GLFW_TRUE; }

  private:
    // Type is drawn at its own size: made anew when the window's unit changes.
    void fit_fonts(float unit) {
        if (std::abs(unit / built_unit_ - 1.0F) < 0.02F) return;
        built_unit_ = unit;
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        fonts_ = load_fonts(*ImGui::GetIO().Fonts, unit, font_candidates_regular(), font_candidates_bold());
        ImGui_ImplOpenGL3_CreateFontsTexture();
    }

    GLFWwindow* window_ = nullptr;
    bool glfw_ = false;
    bool imgui_ = false;
    Fonts fonts_;
    float built_unit_ = 1e-6F;
    std::string title_;
    Keys keys_;
};

}  // namespace

bool run_window(Session& session, WindowSize& size, std::string& why) {
    Screen screen;
    if (!screen.open(session, size)) {
        why = last_error.empty() ? "no window system" : last_error;
        return false;
    }
    double last_s = glfwGetTime();
    double due_s = last_s;
    int frames_left = kFramesAfterEvent;
    while (!screen.closed() && !session.quit()) {
        const bool playing = session.playback().playing();
        const double now_s = glfwGetTime();
        if (!playing) session.playback().tick(0.0);
        if (playing) session.playback().tick(now_s - last_s);
        session.drive_on(now_s - last_s);
        last_s = now_s;
        screen.draw(session);
        if (frames_left > 0) --frames_left;
        const bool drives = session.simulator() != nullptr && !session.simulator()->paused();
        if (session.playback().playing() || drives || frames_left > 0) {
            due_s = due_s + kFrameS > now_s ? due_s + kFrameS : now_s;
            const double wait_s = due_s - glfwGetTime();
            if (wait_s > 0.0) {
                glfwWaitEventsTimeout(wait_s);
            } else {
                glfwPollEvents();
            }
        } else {
            glfwWaitEventsTimeout(session.live() ? kLiveS : kIdleS);
            if (!session.live()) frames_left = kFramesAfterEvent;
            last_s = glfwGetTime();
        }
    }
    size = screen.size();
    return true;
}

}  // namespace podrate::ui
